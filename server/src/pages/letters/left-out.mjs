// Stands for parts of libraries that we never call, and that all who start the program would wait for: their tables are made
// as they are loaded.
export default function leftOut() {
  throw new Error('This part of the library is left out.');
}
export { leftOut as cbc, leftOut as ecb };
