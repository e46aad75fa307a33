/** Text as it is searched: small letters without accents, so that "emile" finds "Émile" in every database alike. */
export const fold = (text: string): string => text.normalize('NFKD').replaceAll(/\p{M}/gu, '').toLowerCase();

/** The words of a search, folded. All of them must be found. */
export const wordsOf = (search: string | undefined): string[] =>
  search === undefined ? [] : fold(search).split(/\s+/).filter(Boolean);
