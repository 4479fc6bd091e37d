// @ts-nocheck
import type { BuildOptions } from 'esbuild';

export const bundleOptions: BuildOptions;
export const commonJs: BuildOptions;
