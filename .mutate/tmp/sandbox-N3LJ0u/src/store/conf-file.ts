/**
 * Writes through conf. It is loaded at the first write only (it brings a schema compiler along), and only writes:
 * every file has been read and proven by us before conf is constructed on it.
 */
// @ts-nocheck

import type Conf from 'conf';

type ConfClass = typeof Conf;
let loaded: ConfClass | undefined;

/** Loads conf; call it while the screen is idle so that the first save is quick. */
export async function loadConf(): Promise<ConfClass> {
  loaded ??= (await import('conf')).default;
  return loaded;
}

export interface ConfFile {
  /** Replaces the file's content by a temporary file, fsync and rename. Throws the system's error. */
  write(value: Record<string, unknown>): void;
}

/**
 * One file under conf.
 * @param folder its folder, which must exist
 * @param name its name without `.json`
 * @param serialize how its content becomes text; JSON when left out
 */
export async function confFile(
  folder: string,
  name: string,
  serialize: (value: Record<string, unknown>) => string = (value) => JSON.stringify(value),
): Promise<ConfFile> {
  const Class = await loadConf();
  const make = (): Conf<Record<string, unknown>> =>
    new Class<Record<string, unknown>>({
      cwd: folder,
      configName: name,
      fileExtension: 'json',
      // On, it would replace a damaged file by an empty one.
      clearInvalidConfig: false,
      // Off, so that a dot in a key is a dot.
      accessPropertiesByDotNotation: false,
      configFileMode: 0o600,
      serialize,
      // conf reads the file before each write, only to keep keys of its own, of which there are none.
      deserialize: () => ({}),
    });
  let conf: Conf<Record<string, unknown>> | undefined;
  return {
    write(value) {
      // Inside a Snap package's terminal conf writes in place, without a temporary file or fsync.
      const snap = process.env.SNAP;
      delete process.env.SNAP;
      try {
        conf ??= make();
        conf.store = value;
      } finally {
        if (snap !== undefined) process.env.SNAP = snap;
      }
    },
  };
}
