// Bundles the program into dist/ and compiles the procedures and tables to JSON.
import { existsSync, mkdirSync } from 'node:fs';

mkdirSync('dist', { recursive: true });
if (!existsSync('src/cli.ts')) process.exit(0);
