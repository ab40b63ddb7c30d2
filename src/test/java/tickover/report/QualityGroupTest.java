package tickover.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.diagnose.QualityNote;
import tickover.diagnose.QualityProblem;
import tickover.order.TimeRange;

class QualityGroupTest {
    private static QualityNote at(String capture, QualityProblem problem, double... timesS) {
        return new QualityNote(
                capture, problem, List.of(new TimeRange(timesS[0], timesS[1])), "It happened.");
    }

    @Test
    void putsTheNotesOfACaptureTogetherAndSaysWhyToRepeatIt() {
        List<QualityGroup> groups =
                QualityGroup.of(
                        List.of(
                                at("c02", QualityProblem.LOST_CONTACT, 1, 3),
                                at("c01", QualityProblem.KNOCK, 1, 1.2),
                                at("c02", QualityProblem.KNOCK, 4, 5.5)));
        assertEquals(List.of("c02", "c01"), groups.stream().map(QualityGroup::captures).toList());
        assertEquals(
                "Repeat this capture, because the probe has to stay pressed on throughout, and"
                        + " because nothing may touch the probe or its lead.",
                groups.get(0).advice());
        assertEquals("", groups.get(1).advice(), "a fifth of a second is no reason");
    }

    @Test
    void saysOnceWhatHoldsForSeveralCaptures() {
        List<QualityGroup> groups =
                QualityGroup.of(
                        List.of(
                                QualityNote.ofWhole("c01", QualityProblem.BAND_LIMIT, "by hand"),
                                QualityNote.ofWhole("c01", QualityProblem.NO_SPEED, "no tach"),
                                QualityNote.ofWhole("c02", QualityProblem.BAND_LIMIT, "glued"),
                                QualityNote.ofWhole("c03", QualityProblem.BAND_LIMIT, "by hand")));
        assertEquals(
                List.of("c01", "c01, c03", "c02"),
                groups.stream().map(QualityGroup::captures).toList());
        assertEquals(
                "Repeat this capture, because a tach or OBD reading gives the speed.",
                groups.get(0).advice());
        assertEquals("", groups.get(1).advice());
    }
}
