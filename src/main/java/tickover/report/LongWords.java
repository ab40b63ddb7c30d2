package tickover.report;

import tickover.drive.PartWords;

/**
 * Lets words that no line and no column has room for be broken, by a sign of no width at which a
 * line may end. Browsers and the PDF library would else let a table grow beyond the page.
 */
final class LongWords {
    /** Longer than words of ordinary names, and short enough for a column of text. */
    static final int MOST_LETTERS = 24;

    /** As many as a column of a table has room for that is one of nine. */
    static final int MOST_LETTERS_OF_COLUMN = 12;

    private static final char MAY_BREAK = '\u200B';

    private LongWords() {}

    /** A part's or point's name for a narrow column. */
    static String column(String name) {
        return broken(PartWords.plain(name), MOST_LETTERS_OF_COLUMN);
    }

    /**
     * Puts the sign into every word that is too long.
     *
     * @param text any
     * @param most letters in a row that may stay together, &gt; 0
     * @return the same text, breakable
     */
    static String broken(String text, int most) {
        StringBuilder out = new StringBuilder(text.length());
        int inRow = 0;
        for (int i = 0; i < text.length(); ) {
            int c = text.codePointAt(i);
            boolean mark = Character.getType(c) == Character.NON_SPACING_MARK;
            if (Character.isWhitespace(c) || c == '-' || c == MAY_BREAK) {
                inRow = 0;
            } else if (!mark && ++inRow > most) {
                out.append(MAY_BREAK);
                inRow = 1;
            }
            out.appendCodePoint(c);
            i += Character.charCount(c);
        }
        return out.toString();
    }
}
