"""Translations: `stripewright_CODE.po` to be edited, and the `.mo` made from each that is loaded."""
