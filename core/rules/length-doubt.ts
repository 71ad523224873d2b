/** Share of a run's length by which a string along the real way may differ. Common practice, no source. */
export const LENGTH_DOUBT = 0.01;
