/**
 * Words of the trade that begin no line of the language, with what to write today. Where the language gets a line that
 * begins with one, that line is read, and the word’s row here goes.
 */
export const tradeWords: readonly { readonly said: RegExp; readonly hint: string }[] = [
  { said: /^(?:pleats|tucks?)$/, hint: 'a pleat is on an edge of the piece, as in pleat front on top at 3 deep 3/4 towards end; one that is sewn down has “stitched 4” behind it' },
  { said: /^fold_?lines$/, hint: 'each fold is a line of its own, as in foldline crease = upright at 4' },
  { said: /^(?:gathers?|gathering|ruffles?|ease)$/, hint: 'gathers and ease are said of the seam, outside of the piece, as in seam frill = frill.top with skirt.hem gathered' },
  { said: /^(?:top_stitch(?:ing)?|topstitching|edge_?stitch(?:ing)?|stitch(?:ing)?)$/, hint: 'topstitching has a name, and says how far from which edges it lies, as in topstitch rim 1/8 from left, bottom, right' },
  { said: /^quilt(?:ed|ing)$/, hint: 'quilting has a name, and says how far apart its rows are and along which line of the piece, as in quilt rows 1 1/2 apart along middle' },
  { said: /^(?:press|fuse|baste|turn|clip)$/, hint: 'what is done when sewing is told in a note, as in note "Press the top."' },
  { said: /^(?:sew|join|attach)$/, hint: 'what is sewn to what is a line outside of the piece, as in seam side = front.left with back.left' },
  { said: /^(?:hem|bind|binding|bound|face|facing)$/, hint: 'what becomes of an edge is said with the edge, as in edge top hemmed 1/2 or edge top bound' },
  { said: /^(?:ribbon|elastic|zips?|zippers?|snaps?|buttons?|webbing|thread|rings?)$/, hint: 'what is bought and not cut is a supply, outside of the piece, as in supply zip { … }, and a mark says where it goes' },
  { said: /^(?:interfacing|fusible|stabili[sz]er|foam|fleece|layer|lining)$/, hint: 'a layer is cut like the cloth that it goes on, on a line below it, as in cut 1 crisp' },
  { said: /^(?:rectangle|circle|ellipse|polygon|path)$/, hint: 'the line of a piece’s shape begins with “outline”, as in outline rectangle 9 by 7' },
  { said: /^colou?rs?$/, hint: 'a colour stands in a title, or in a note, as in note "Red."' },
  { said: /^usable$/, hint: 'it stands after the width, as in width 44 usable 42' },
];
