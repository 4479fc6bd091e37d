/** A page as its elements. All are read in one window: one for each would work out its styles, which nothing here asks. */
import { type Document, JSDOM } from 'jsdom';

const parser = new new JSDOM('').window.DOMParser();
export const readHtml = (html: string): Document => parser.parseFromString(html, 'text/html');
