import type { Slip } from '../slip.ts';
import { blockSlips } from './blocks.ts';
import { cutSlips } from './cut-lines.ts';
import { fileSlips } from './file-facts.ts';
import { pieceSlips } from './piece-lines.ts';
import { seamSlips } from './seams.ts';
import { textSlips } from './texts.ts';
import { unreadSlips } from './unread-lines.ts';
import { valueSlips } from './values.ts';

export const slips: readonly Slip[] = [...blockSlips, ...cutSlips, ...valueSlips, ...pieceSlips, ...fileSlips, ...seamSlips, ...textSlips, ...unreadSlips];
