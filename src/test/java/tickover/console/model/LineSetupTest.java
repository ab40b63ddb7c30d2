package tickover.console.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.session.LineChoice;
import tickover.session.PortAnswer;
import tickover.session.PortAnswer.Kind;

class LineSetupTest {
    @TempDir Path temp;
    private ConsoleModel console;
    private LineSetup lines;

    @BeforeEach
    void open() {
        console =
                new ConsoleModel(
                        new ConsoleOptions(temp.resolve("data"), false), new DirectErrands());
        lines = console.lines();
    }

    private LineChoice.Wish wish() {
        return lines.wish(temp);
    }

    private static PortAnswer answer(String port, Kind kind) {
        return new PortAnswer(port, kind, 115_200, "", "", "");
    }

    @Test
    void nothingHasToBeChosenWhereOneProbeAnswers() {
        assertEquals("", wish().probePort());
        assertEquals("", wish().tachPort() + wish().obdPort());
        assertEquals(1, lines.pulsesPerTurn());
        lines.offer(List.of(answer("A", Kind.PROBE), answer("B", Kind.NOTHING)));
        assertEquals("One probe answers.", console.message().get());
        assertEquals("", wish().probePort());
    }

    @Test
    void severalDevicesAreOfferedForWhatTheyAre() {
        lines.offer(
                List.of(
                        answer("A", Kind.PROBE),
                        answer("B", Kind.TEXT_PROBE),
                        answer("C", Kind.ADAPTER),
                        answer("D", Kind.CLOSED)));
        assertEquals("2 probes answer; choose one.", console.message().get());
        assertEquals(3, lines.probes().size());
        assertEquals(
                List.of(
                        "the probe's own tach, else the sound",
                        "tach board at A",
                        "diagnostic socket at C"),
                lines.speeds().stream().map(LineSetup.Device::words).toList());
        lines.probe().set(lines.probes().get(2));
        lines.speed().set(lines.speeds().get(2));
        assertEquals("B", wish().probePort());
        assertEquals("C", wish().obdPort());
        lines.speed().set(lines.speeds().get(1));
        assertEquals("A", wish().tachPort());
        assertEquals("", wish().obdPort());
    }

    @Test
    void whatIsChosenStaysWhileItAnswersAndGoesWithIt() {
        lines.offer(List.of(answer("A", Kind.PROBE), answer("B", Kind.PROBE)));
        lines.probe().set(lines.probes().get(2));
        lines.offer(List.of(answer("B", Kind.PROBE)));
        assertEquals("B", wish().probePort());
        lines.offer(List.of());
        assertEquals("", wish().probePort());
        assertTrue(console.message().get().startsWith("No port answers like a probe"));
    }

    @Test
    void marksThatCannotBeAreOne() {
        lines.marks().set("4");
        assertEquals(4, lines.pulsesPerTurn());
        lines.marks().set("none");
        assertEquals(1, lines.pulsesPerTurn());
        lines.marks().set("-3");
        assertEquals(1, lines.pulsesPerTurn());
    }
}
