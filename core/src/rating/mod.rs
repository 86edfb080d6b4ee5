//! Single-number ratings: ISO 717-1, ASTM E413 and E1332, NR and NC.
