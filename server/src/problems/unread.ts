/** Why a file that is there is not read. */
export type Unread = 'utf-16' | 'not utf-8' | 'no file' | 'denied' | 'failed';

/** The same in words, with the way out. */
export const unreadWords: Readonly<Record<Unread, string>> = {
  'utf-16': 'It is saved as UTF-16: save it as UTF-8',
  'not utf-8': 'It isn’t written in UTF-8 throughout: save it as UTF-8, and look at its accents and signs',
  'no file': 'It is no file, but a device or a pipe',
  denied: 'Permission is missing',
  failed: 'The disk gives an error',
};
