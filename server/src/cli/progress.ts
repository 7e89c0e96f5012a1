/** Shows how far a long job is, on a terminal only and only once it has taken a while. */
export function progressOn(stream: NodeJS.WriteStream, what: string, total: number): { readonly show: (done: number) => void; readonly end: () => void } {
  const started = performance.now();
  let shown = false;
  return {
    show: (done) => {
      if (!stream.isTTY || performance.now() - started < 300) return;
      shown = true;
      stream.write(`\r${what} ${done} of ${total} …`);
    },
    end: () => {
      if (shown) stream.write('\r\u001b[K');
    },
  };
}
