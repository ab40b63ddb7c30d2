package tickover.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.openhtmltopdf.bidi.BidiSplitter;
import com.openhtmltopdf.bidi.BidiTextRun;
import org.junit.jupiter.api.Test;

class RightToLeftTest {
    @Test
    void numberInsideWordsFromTheRightStaysWithThem() {
        RightToLeft.Splitter splitter = new RightToLeft.Splitter();
        String text = "van שלום-07 רכב here";
        splitter.setParagraph(text, BidiSplitter.LTR);
        assertEquals(3, splitter.countTextRuns());
        BidiTextRun right = splitter.getVisualRun(1);
        assertEquals(BidiSplitter.RTL, right.getDirection());
        assertEquals(
                "שלום-07 רכב",
                text.substring(right.getStart(), right.getStart() + right.getLength()));
    }

    @Test
    void wordsAreReversedAndNumbersAreNot() {
        assertEquals("בכר 07-םולש", new RightToLeft.Reorderer().reorderRTLTextToLTR("שלום-07 רכב"));
    }

    /** The library's joining gives doubling a form that stands beside its letter. */
    @Test
    void marksStandOnTheirLetterAfterJoining() {
        String joined = RightToLeft.joined("\u0645\u0634\u062F\u0651");
        assertEquals("\uFEE3\uFEB8\uFEAA\u0651", joined);
        String ordered = new RightToLeft.Reorderer().reorderRTLTextToLTR(joined);
        assertEquals("\uFEAA\u0651\uFEB8\uFEE3", ordered);
    }

    @Test
    void bracketsFaceTheOtherWay() {
        assertEquals("(ב) א", new RightToLeft.Reorderer().reorderRTLTextToLTR("א (ב)"));
    }

    @Test
    void plainTextIsOneRun() {
        RightToLeft.Splitter splitter = new RightToLeft.Splitter();
        splitter.setParagraph("idler 90 %", BidiSplitter.LTR);
        assertEquals(1, splitter.countTextRuns());
        assertEquals(BidiSplitter.LTR, splitter.getVisualRun(0).getDirection());
    }
}
