package dev.splicebook.guard;

/**
 * One refused value.
 *
 * @param pointer where, as a JSON pointer relative to the value that refuses: empty for the value itself, else like
 *     {@code /maxAmps}
 * @param code the kind of fault, kebab-case, like {@code out-of-range}
 * @param detail what is wrong, with the value, as a sentence part that stands alone
 */
public record Invalid(String pointer, String code, String detail) {}
