package tickover.cli;

/** Writes a word so that it can be pasted into a shell. */
final class ShellWord {
    private static final String NEEDS_NO_QUOTES = "[A-Za-z0-9_./:@%+,#=\\\\-]+";

    private ShellWord() {}

    /** Quotes a word if it has to be. */
    static String of(String word) {
        if (word.matches(NEEDS_NO_QUOTES) && !word.startsWith("#")) {
            return word;
        }
        boolean windows = java.io.File.separatorChar == '\\';
        return windows ? '"' + word + '"' : "'" + word.replace("'", "'\\''") + "'";
    }
}
