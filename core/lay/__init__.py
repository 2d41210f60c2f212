"""The lay: where matched panels may lie on their cloth, and the shortest arrangement found."""
