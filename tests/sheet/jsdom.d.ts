/** As much of jsdom as the tests use; the program itself is compiled without the browser's types. */
declare module 'jsdom' {
  export interface Element {
    readonly tagName: string;
    readonly textContent: string;
    readonly outerHTML: string;
    readonly children: ArrayLike<Element>;
    getAttribute(name: string): string | null;
    getAttributeNames(): string[];
    querySelector(selector: string): Element | null;
    closest(selector: string): Element | null;
    querySelectorAll(selector: string): ArrayLike<Element>;
  }
  export type Document = Element & { readonly title: string; readonly body: Element };
  export class JSDOM {
    constructor(html: string, options?: { runScripts?: 'outside-only'; contentType?: string });
    readonly window: {
      readonly document: Document;
      readonly DOMParser: new () => { parseFromString(html: string, type: 'text/html'): Document };
      eval(code: string): unknown;
    };
  }
}
