/** What the tests use of the XML parser `sax`, which comes without types. */
declare module 'sax' {
  interface Parser {
    onerror: (error: Error) => void;
    onopentag: (tag: { readonly name: string; readonly attributes: Readonly<Record<string, string>> }) => void;
    onclosetag: (name: string) => void;
    ontext: (text: string) => void;
    write: (xml: string) => Parser;
    close: () => Parser;
  }
  export function parser(strict: boolean): Parser;
}
