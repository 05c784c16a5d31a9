/** What the page uses of its rendering library. */
export type TemplateResult = { readonly strings: TemplateStringsArray };
export function html(strings: TemplateStringsArray, ...values: unknown[]): TemplateResult;
export function svg(strings: TemplateStringsArray, ...values: unknown[]): TemplateResult;
export function render(value: unknown, container: Element | DocumentFragment): unknown;
export const nothing: unique symbol;
export function repeat<T>(items: Iterable<T>, key: (item: T) => unknown, template: (item: T) => unknown): unknown;
