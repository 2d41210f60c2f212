"""Translations: `stripewright_CODE.ts` to be edited with Qt's Linguist, and the `.qm` made from each that is loaded."""
