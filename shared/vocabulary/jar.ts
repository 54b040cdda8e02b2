/** The most grams of one ingredient that a jar may hold. */
export const MOST_JAR_G = 50_000;
