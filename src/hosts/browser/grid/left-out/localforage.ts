/** In place of the package localforage, in which the grid library would keep what a person used lately. This page keeps nothing of that. */
const nothing = (): Promise<null> => Promise.resolve(null);

export default { getItem: nothing, setItem: nothing, removeItem: nothing, clear: nothing, key: nothing, keys: () => Promise.resolve([]), iterate: nothing };
