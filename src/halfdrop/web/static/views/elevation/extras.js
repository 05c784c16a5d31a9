// @ts-check
/**
 * What other trades bring to the elevation: a sentence for a kind of thing (`slips`), words at the head of the margin (`ways`),
 * and panels under those words (`heads`), and dialogs beside the sheet (`beside`). A trade fills these when its module is loaded.
 */

/** @type {{slips: Record<string, (thing: any) => any>, ways: (() => any)[], heads: (() => any)[], beside: (() => any)[]}} */
export const extras = { slips: {}, ways: [], heads: [], beside: [] };
