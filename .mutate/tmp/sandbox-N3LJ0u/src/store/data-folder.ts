/** Where jobs live, and how the folder is divided. */
// @ts-nocheck

import { homedir } from 'node:os';
import { isAbsolute, join } from 'node:path';
import { makeFolder } from '../files/make-folder.js';

/** The platform's folder for a person's own data; ROTORSIDE_DATA, when set, wins. */
export function defaultDataFolder(
  env: Readonly<Record<string, string | undefined>> = process.env,
  platform: string = process.platform,
  home: string = homedir(),
): string {
  if (env.ROTORSIDE_DATA) return env.ROTORSIDE_DATA;
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'rotorside');
  if (platform === 'win32') return join(env.LOCALAPPDATA || join(home, 'AppData', 'Local'), 'rotorside', 'Data');
  // The XDG base directory specification says that a relative path there is to be ignored.
  const xdg = env.XDG_DATA_HOME;
  return join(xdg && isAbsolute(xdg) ? xdg : join(home, '.local', 'share'), 'rotorside');
}

/** The paths of one data folder. Each kind of file has a folder of its own, so that listing jobs is one read of names. */
export interface Places {
  readonly root: string;
  readonly jobs: string;
  readonly previous: string;
  readonly drafts: string;
  readonly locks: string;
  readonly damaged: string;
  readonly index: string;
  readonly latest: string;
  readonly latestNames: string;
}

export function placesIn(folder: string): Places {
  return {
    root: folder,
    jobs: join(folder, 'jobs'),
    previous: join(folder, 'previous'),
    drafts: join(folder, 'drafts'),
    locks: join(folder, 'locks'),
    damaged: join(folder, 'damaged'),
    index: join(folder, 'index.jsonl'),
    latest: join(folder, 'latest.json'),
    latestNames: join(folder, 'latest.names'),
  };
}

/** Makes the folders that a write needs, open to their owner alone. */
export function makePlaces(places: Places): void {
  for (const folder of [places.root, places.jobs, places.previous, places.drafts, places.locks]) {
    makeFolder(folder);
  }
}
