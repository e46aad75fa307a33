/** Order of names as people expect it, the same whatever the database's collation; equal names by id. */
export const byName = (
  a: { readonly id: string; readonly name: string },
  b: { readonly id: string; readonly name: string },
): number => a.name.localeCompare(b.name, 'en') || (a.id < b.id ? -1 : 1);
