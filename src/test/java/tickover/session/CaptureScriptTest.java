package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.diagnose.Mount;
import tickover.diagnose.Regime;
import tickover.drive.Condition;

/** When captures begin and end. */
class CaptureScriptTest {
    private static PlannedCapture at(String point) {
        return new PlannedCapture(
                point, "radial", Mount.HAND, Regime.IDLE, Condition.UNLOADED.withAircon(true));
    }

    private static CaptureScript script(boolean byPress, double lengthS, double turns, int count) {
        List<PlannedCapture> planned = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            planned.add(at("p" + (i + 1)));
        }
        return new CaptureScript(planned, new CaptureScript.Rule(byPress, false, lengthS, turns));
    }

    private static List<String> written(CaptureScript script) {
        return script.takeDue().stream().map(n -> n.kind() + " " + n.number()).toList();
    }

    @Test
    void theOnlyCaptureBeginsWithTheFirstSamplesAndEndsByItsLength() {
        CaptureScript script = script(false, 5, 0, 1);
        script.reached(0.5, 0);
        assertEquals(List.of(), written(script));
        script.flowing(1, 0);
        script.flowing(1.1, 0);
        assertEquals(List.of("BEGIN 1"), written(script));
        script.reached(5.9, 0);
        assertFalse(script.finished());
        script.reached(6.0, 0);
        assertEquals(List.of("END 1"), written(script));
        assertTrue(script.finished());
    }

    @Test
    void pressesBeginAndEndOneCaptureAfterAnother() {
        CaptureScript script = script(true, 0, 0, 2);
        script.flowing(0, 0);
        script.pressed(1, 0);
        script.pressed(4, 0);
        script.pressed(9, 0);
        script.pressed(12, 0);
        script.pressed(20, 0);
        assertEquals(List.of("BEGIN 1", "END 1", "BEGIN 2", "END 2"), written(script));
        assertTrue(script.finished());
    }

    @Test
    void openScriptCapturesWhatWasAimedAtLastAndNothingElse() {
        CaptureScript script =
                new CaptureScript(List.of(), new CaptureScript.Rule(true, true, 5, 0));
        script.pressed(1, 0);
        assertEquals(List.of(), written(script));
        script.aim(at("idler"));
        script.aim(at("alternator"));
        assertEquals("alternator", script.point());
        script.pressed(2, 0);
        script.aim(at("tensioner"));
        assertEquals("alternator", script.point());
        script.reached(7, 0);
        assertEquals("tensioner", script.point());
        assertEquals(List.of("BEGIN 1", "END 1"), written(script));
        assertFalse(script.finished());
        script.pressed(8, 0);
        script.pressed(9, 0);
        script.pressed(10, 0);
        assertEquals(List.of("BEGIN 2", "END 2"), written(script));
        assertEquals("", script.point());
    }

    @Test
    void turnsCountFromTheBeginOfTheCapture() {
        CaptureScript script = script(true, 0, 100, 1);
        script.pressed(1, 40);
        script.reached(5, 139);
        assertEquals(List.of("BEGIN 1"), written(script));
        script.reached(6, 140);
        assertEquals(List.of("END 1"), written(script));
    }

    @Test
    void stoppingEndsTheCaptureThatRuns() {
        CaptureScript script = script(true, 0, 0, 2);
        script.pressed(1, 0);
        script.stop();
        assertEquals(List.of("BEGIN 1", "END 1"), written(script));
        assertFalse(script.finished());
    }

    @Test
    void severalCapturesNeedPresses() {
        assertThrows(IllegalArgumentException.class, () -> script(false, 5, 0, 2));
    }

    @Test
    void notesComeBackAsTheyWereWritten() {
        PlannedCapture capture =
                new PlannedCapture(
                        "Öl \"filter\"",
                        "axial",
                        Mount.MAGNET,
                        Regime.SWEEP,
                        Condition.UNLOADED.withBeltOn(false).withInjectorOff(3));
        RecordingNote read =
                RecordingNote.parse(RecordingNote.begins(7, capture).json()).orElseThrow();
        assertEquals(7, read.number());
        assertEquals(capture, read.capture());
        assertTrue(RecordingNote.parse("{\"note\":\"of tomorrow\"}".getBytes(UTF_8)).isEmpty());
        assertEquals(
                RecordingNote.Kind.UNREADABLE,
                RecordingNote.parse("not json".getBytes(UTF_8)).orElseThrow().kind());
    }

    private static final java.nio.charset.Charset UTF_8 = java.nio.charset.StandardCharsets.UTF_8;
}
