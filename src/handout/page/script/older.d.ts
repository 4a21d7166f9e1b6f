// What older.js gives to browsers that lack it, and no more: the scripts are checked against the standard library of 2021.

interface Array<T> {
  at(index: number): T | undefined;
  findLast(is: (element: T, index: number, array: T[]) => unknown): T | undefined;
  findLastIndex(is: (element: T, index: number, array: T[]) => unknown): number;
}
