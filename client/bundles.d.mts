import type { BuildOptions } from 'esbuild';

export const node: BuildOptions;
export const browser: BuildOptions;
