import * as vscode from 'vscode';
import { previewHtml, unloadedHtml } from './html.ts';

/** How often a page is loaded before it is given up. */
const mostLoads = 4;

/** Loads the page of a preview, and again where its script or its style was lost. */
export class Loading {
  private readonly webview: vscode.Webview;
  private readonly dist: vscode.Uri;
  private count = 0;

  constructor(webview: vscode.Webview, dist: vscode.Uri) {
    this.webview = webview;
    this.dist = dist;
  }

  /** Loads the page of a pattern. */
  start(pattern: string): void {
    this.count += 1;
    const address = (name: string): string => this.webview.asWebviewUri(vscode.Uri.joinPath(this.dist, name)).toString();
    const nonce = Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, '0')).join('');
    this.webview.html = previewHtml({ pattern, load: this.count, style: address('preview.css'), script: address('preview.js'), source: this.webview.cspSource, nonce });
  }

  /** Loads the page again, once for each that was lost, however much of it was. */
  lost(load: number, pattern: string): void {
    if (load !== this.count) return;
    if (load < mostLoads) return this.start(pattern);
    this.count += 1;
    this.webview.html = unloadedHtml();
  }
}
