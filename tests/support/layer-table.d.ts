/** Types of layer-table.js, which stays plain JavaScript so that ESLint's configuration can read it under any Node. */
export interface LayerRule {
  readonly folders: readonly string[];
  readonly packages: readonly string[];
  readonly node: boolean;
  readonly pure?: boolean;
}
export const LAYERS: Readonly<Record<string, LayerRule>>;
export const FREE: readonly string[];
export function layerOf(path: string): string | null;
