/** A name of the spec as a table shows it: `zip_box` reads “zip box”. */
export const nameText = (name: string): string => name.replaceAll('_', ' ');
