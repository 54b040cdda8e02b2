/** Longest free text of an event or a grade, in characters. It is kept apart and can be erased. */
export const NOTE_MAX_LENGTH = 500;
