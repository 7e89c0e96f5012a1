import writeFileAtomic from 'write-file-atomic';

/** Writes a text to a file, whole or not at all, or to standard output where no file is named. */
export async function writeOutput(text: string, file: string | undefined): Promise<void> {
  if (file === undefined) process.stdout.write(text);
  else await writeFileAtomic(file, text, 'utf8');
}
