import type { World } from './world.ts';
import { spaced, titleText } from '../titles.ts';

/** What a choice is called in exports: its title, else its name; `size` of sizes. */
export function choiceTitle({ choices }: World, choice: string): string {
  const tree = choices.get(choice)?.declaration.tree;
  return tree?.kind === 'choice' ? titleText(tree.title, tree.name) : spaced(choice);
}

/** What an option is called in exports: its title, else its name; a size is called as it is written. */
export function optionTitle({ choices }: World, choice: string, option: string): string {
  const tree = choices.get(choice)?.declaration.tree;
  if (tree?.kind !== 'choice') return option;
  const written = tree.options.find((one) => one.text === option);
  return written === undefined ? spaced(option) : titleText(written.title, written);
}
