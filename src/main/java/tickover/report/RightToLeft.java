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
    private RightToLeft() {}

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
            return new Bidi(text, Bidi.RTL).writeReordered(Bidi.DO_MIRRORING);
        }

        @Override
        public String shapeText(String text) {
            return joining.shapeText(text);
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
