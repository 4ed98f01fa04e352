"""From a vitola and a blend to grams on the scale."""
