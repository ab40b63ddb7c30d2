package tickover.cli;

import java.util.Locale;
import tickover.drive.PartWords;
import tickover.session.LiveReading;
import tickover.session.RecordPlan;
import tickover.session.RecordStatus;
import tickover.session.RecordStatus.LineStatus;
import tickover.session.SourceInfo;

/**
 * What a person sees while a recording runs: one line that is rewritten, and a line that stays for
 * everything that happens.
 */
final class RecordScreen {
    /** A probe that says nothing for so long from the start is not one. */
    private static final double SILENT_S = 10;

    private final Terminal terminal;
    private final RecordPlan plan;
    private int done;
    private int running;
    private String problem = "";

    RecordScreen(Terminal terminal, RecordPlan plan) {
        this.terminal = terminal;
        this.plan = plan;
        if (plan.byPress()) {
            terminal.note(
                    "press the probe's button, or Enter, to begin and end a capture; Ctrl-C ends"
                            + " the recording.");
            ready();
        }
    }

    private void ready() {
        if (done < plan.captures().size()) {
            terminal.note(
                    String.format(
                            Locale.ROOT,
                            "next, capture %d of %d: put the probe on %s.",
                            done + 1,
                            plan.captures().size(),
                            PartWords.the(plan.captures().get(done).point())));
        }
    }

    void show(RecordStatus status) {
        happened(status);
        terminal.progress(line(status));
    }

    private void happened(RecordStatus status) {
        if (plan.byPress()) {
            captures(status);
        }
        String now = "";
        for (LineStatus line : status.lines()) {
            now = now.isEmpty() ? line.problem() : now;
        }
        if (!now.equals(problem)) {
            problem = now;
            say(now.isEmpty() ? "all is well again." : now + ".");
        }
    }

    /** Short ones and their pauses may come and go between two looks. */
    private void captures(RecordStatus status) {
        boolean another = done < status.capture() - 1;
        while (done < status.capture() - 1) {
            done++;
            terminal.bell();
            say("capture " + done + " is done.");
        }
        if (status.capturing() && running != status.capture()) {
            running = status.capture();
            terminal.bell();
            say(
                    "capture "
                            + running
                            + " at "
                            + PartWords.the(status.point())
                            + " runs; hold still.");
        } else if (another) {
            ready();
        }
    }

    private void say(String sentence) {
        terminal.progressDone();
        terminal.note(sentence);
    }

    /**
     * For instance "00:12, idler 2/5 4.2 s, 781 rpm, 0.84 m/s² rms, 51.2 kB/s, 0 lost, 0 B bad".
     */
    private String line(RecordStatus s) {
        StringBuilder b = new StringBuilder();
        long whole = (long) s.elapsedS();
        b.append(String.format(Locale.ROOT, "%02d:%02d", whole / 60, whole % 60));
        if (s.captures() > 0) {
            b.append(
                    s.capturing()
                            ? String.format(
                                    Locale.ROOT,
                                    ", %s %d/%d %.1f s",
                                    PartWords.plain(s.point()),
                                    s.capture(),
                                    s.captures(),
                                    s.captureLengthS())
                            : ", waiting");
        }
        b.append(s.latest().map(RecordScreen::reading).orElse(", no samples"));
        double bytesPerS = 0;
        long lost = 0;
        long rejected = 0;
        for (LineStatus line : s.lines()) {
            bytesPerS += line.bytesPerS();
            lost += line.lostSamples();
            rejected += line.rejectedBytes();
        }
        b.append(
                String.format(
                        Locale.ROOT,
                        ", %.1f kB/s, %d samples lost, %d B rejected",
                        bytesPerS / 1000,
                        lost,
                        rejected));
        return b.toString();
    }

    private static String reading(LiveReading r) {
        String speed =
                r.speedRpm().isPresent()
                        ? Prose.fixed(r.speedRpm().getAsDouble(), 0) + " rpm"
                        : "no speed";
        return ", "
                + speed
                + ", "
                + Prose.three(r.rmsMps2())
                + " m/s² rms"
                + (r.atLimit() ? " CLIPPED" : "");
    }

    /** Why it is no use to go on waiting for the first sample; empty as long as it is. */
    String silence(RecordStatus status) {
        if (status.latest().isPresent() || status.elapsedS() < SILENT_S) {
            return "";
        }
        for (LineStatus line : status.lines()) {
            if (line.info().role() == SourceInfo.Role.PROBE && line.frames() == 0) {
                return line.problem().isEmpty()
                        ? String.format(
                                Locale.ROOT,
                                "nothing that looks like a probe came from %s at %d Bd in %.0f s;"
                                        + " 'tickover ports' shows what answers where",
                                line.info().port(),
                                line.info().baud(),
                                SILENT_S)
                        : line.problem();
            }
        }
        return "";
    }
}
