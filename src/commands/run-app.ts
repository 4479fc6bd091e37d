export async function runApp(_: unknown): Promise<number> {
  return 0;
}
