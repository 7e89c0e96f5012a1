import type { Webview } from 'vscode';
import { previewHtml, unloadedHtml } from './html.ts';

/** How often a page is loaded before it is given up. */
const mostLoads = 4;

/** Loads the page of a preview, and again where its script or its style was lost. */
export class Loading {
  private readonly webview: Pick<Webview, 'cspSource' | 'html'>;
  private readonly addressOf: (name: string) => string;
  private count = 0;

  /** @param addressOf where the page finds a file of the program */
  constructor(webview: Pick<Webview, 'cspSource' | 'html'>, addressOf: (name: string) => string) {
    this.webview = webview;
    this.addressOf = addressOf;
  }

  /** Loads the page of a pattern. */
  start(pattern: string): void {
    this.count += 1;
    const nonce = Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, '0')).join('');
    this.webview.html = previewHtml({ pattern, load: this.count, style: this.addressOf('preview.css'), script: this.addressOf('preview.js'), source: this.webview.cspSource, nonce });
  }

  /** Loads the page again, once for each that was lost, however much of it was. */
  lost(load: number, pattern: string): void {
    if (load !== this.count) return;
    if (load < mostLoads) return this.start(pattern);
    this.count += 1;
    this.webview.html = unloadedHtml();
  }
}
