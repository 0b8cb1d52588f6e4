import { useSyncExternalStore } from 'react';

/** One immutable value, who may look at it, and the only way to replace it. */
export interface Store<T> {
  get(): T;
  /** Replaces the value by what `change` makes of it; the same value tells nobody. */
  update(change: (value: T) => T): void;
  /** Calls back after every change; returns how to stop. */
  subscribe(listener: () => void): () => void;
}

export function createStore<T>(initial: T): Store<T> {
  let value = initial;
  const listeners = new Set<() => void>();
  return {
    get: () => value,
    update(change) {
      const next = change(value);
      if (Object.is(next, value)) return;
      value = next;
      for (const listener of [...listeners]) listener();
    },
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

/**
 * What a view needs of the store; it renders again when that part changes. `select` must return the same part for the
 * same value (pick a field, do not build an object).
 */
export function useStore<T, Part>(store: Store<T>, select: (value: T) => Part): Part {
  const read = (): Part => select(store.get());
  return useSyncExternalStore((listener) => store.subscribe(listener), read, read);
}
