import type { Name, Quoted } from '../syntax/tree.ts';

/** What something is called in exports: its title, else its name with spaces, as `zip_box` reads “zip box”. */
export const titleText = (title: Quoted | undefined, name: Name): string => title?.value ?? spaced(name.text);

export const spaced = (name: string): string => name.replaceAll('_', ' ');
