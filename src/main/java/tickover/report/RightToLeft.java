package tickover.report;

import com.ibm.icu.text.Bidi;
import com.openhtmltopdf.bidi.BidiReorderer;
import com.openhtmltopdf.bidi.BidiSplitter;
import com.openhtmltopdf.bidi.BidiTextRun;
import com.openhtmltopdf.bidi.support.ICUBidiReorderer;
import java.util.ArrayList;
import java.util.List;

/**
 * Orders words that are written from the right for the PDF library, which lays the runs of a
 * paragraph out from left to right and reverses each that it is told of. A number inside such words
 * is a run of its own for the library's own splitter and comes out in the wrong place; here it
 * stays with the words round it, and the run is ordered as a whole.
 */
final class RightToLeft {
    /**
     * Joining letters gives vowel signs and the sign of doubling forms that stand beside their
     * letter, in this block; these are the signs that stand above and below it, in its order.
     */
    private static final char FIRST_FORM = '\uFE70';

    private static final char NO_MARK = '-';
    private static final String MARKS =
            "\u064B-\u064C-\u064D-\u064E\u064E\u064F\u064F\u0650\u0650\u0651\u0651\u0652\u0652";

    private RightToLeft() {}

    /** Joins letters for a drawing, which orders them itself. */
    static String joined(String text) {
        StringBuilder out = new StringBuilder(new ICUBidiReorderer().shapeText(text));
        for (int i = 0; i < out.length(); i++) {
            int form = out.charAt(i) - FIRST_FORM;
            if (form >= 0 && form < MARKS.length() && MARKS.charAt(form) != NO_MARK) {
                out.setCharAt(i, MARKS.charAt(form));
            }
        }
        return out.toString();
    }

    /** Cuts a paragraph where its direction changes, numbers left inside. One thread. */
    static final class Splitter implements BidiSplitter {
        private final List<BidiTextRun> runs = new ArrayList<>();

        @Override
        public void setParagraph(String paragraph, byte defaultDirection) {
            runs.clear();
            byte[] levels = new Bidi(paragraph, Bidi.LTR).getLevels();
            int start = 0;
            for (int i = 1; i <= levels.length; i++) {
                if (i == levels.length || isRight(levels[i]) != isRight(levels[start])) {
                    runs.add(new BidiTextRun(start, i - start, isRight(levels[start]) ? RTL : LTR));
                    start = i;
                }
            }
        }

        private static boolean isRight(byte level) {
            return level > 0;
        }

        @Override
        public int countTextRuns() {
            return runs.size();
        }

        @Override
        public BidiTextRun getVisualRun(int runIndex) {
            return runs.get(runIndex);
        }

        @Override
        public byte getBaseDirection(String paragraph) {
            return switch (Bidi.getBaseDirection(paragraph)) {
                case Bidi.LTR -> LTR;
                case Bidi.RTL -> RTL;
                default -> NEUTRAL;
            };
        }
    }

    /** Orders a run as a whole; joins letters as the library does. */
    static final class Reorderer implements BidiReorderer {
        private final BidiReorderer joining = new ICUBidiReorderer();

        @Override
        public String reorderRTLTextToLTR(String text) {
            return new Bidi(text, Bidi.RTL)
                    .writeReordered((short) (Bidi.DO_MIRRORING | Bidi.KEEP_BASE_COMBINING));
        }

        @Override
        public String shapeText(String text) {
            return joined(text);
        }

        @Override
        public String deshapeText(String text) {
            return joining.deshapeText(text);
        }

        @Override
        public boolean isLiveImplementation() {
            return true;
        }
    }
}
