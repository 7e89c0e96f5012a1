import type { Pages } from '../../pages/pages.ts';
import { escapeMarkup } from '../escape.ts';

/** What a document is, as a packet that programs find in any file (ISO 16684-1, XMP). It holds no date and no random name. */
export function metadataOf({ title, revision, digest }: Pages, language: string): string {
  const words = (text: string): string => `<rdf:Alt><rdf:li xml:lang="x-default">${escapeMarkup(text)}</rdf:li></rdf:Alt>`;
  return `<?xpacket begin="\uFEFF" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/" xmlns:xmp="http://ns.adobe.com/xap/1.0/">
<dc:format>application/pdf</dc:format>
<dc:title>${words(title)}</dc:title>
<dc:description>${words(subjectOf(revision, digest))}</dc:description>
<dc:language><rdf:Bag><rdf:li>${language}</rdf:li></rdf:Bag></dc:language>
<dc:identifier>${escapeMarkup(digest)}</dc:identifier>
<xmp:CreatorTool>Piecewright</xmp:CreatorTool>
<pdf:Producer>Piecewright</pdf:Producer>
</rdf:Description>
</rdf:RDF>
</x:xmpmeta>
<?xpacket end="r"?>`;
}

export const subjectOf = (revision: string | undefined, digest: string): string => `Sewing pattern${revision === undefined ? '' : `, revision ${revision}`}, fingerprint ${digest}`;
