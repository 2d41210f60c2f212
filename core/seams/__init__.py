"""From placed panels to readings: step, crossings, drift, agreement, easing, seam shift."""
