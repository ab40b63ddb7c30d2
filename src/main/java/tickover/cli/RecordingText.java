package tickover.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tickover.drive.PartWords;
import tickover.session.RecordingContent;
import tickover.session.RecordingContent.Captured;
import tickover.session.RecordingContent.Gap;
import tickover.session.RecordingContent.Source;

/** What a recording holds, for people. */
final class RecordingText {
    private static final int GAPS_SHOWN = 8;

    private RecordingText() {}

    static List<String> of(RecordingContent content) {
        List<String> lines = new ArrayList<>();
        lines.add(
                String.format(
                        Locale.ROOT,
                        "%s: %.1f s%s",
                        content.file(),
                        content.durationS(),
                        content.closed()
                                ? ""
                                : ", not closed (cut short; all before it is there)"));
        if (content.damagedBytes() > 0) {
            lines.add(content.damagedBytes() + " bytes of the file are damaged and left out");
        }
        lines.addAll(content.remarks());
        lines.add("");
        lines.addAll(sources(content));
        lines.add("");
        lines.addAll(captures(content));
        if (!content.gaps().isEmpty()) {
            lines.add("");
            lines.addAll(gaps(content));
        }
        return lines;
    }

    private static List<String> sources(RecordingContent content) {
        TextTable table =
                new TextTable(
                        "Device",
                        "Port",
                        ">Bytes",
                        ">Rejected",
                        ">Samples",
                        ">Lost",
                        ">Edges",
                        ">Readings");
        for (Source s : content.sources()) {
            String role = s.info().role().name().toLowerCase(Locale.ROOT);
            table.row(
                    s.name().isEmpty() ? role : role + " " + s.name(),
                    s.info().port(),
                    Long.toString(s.bytes()),
                    Long.toString(s.rejectedBytes()),
                    Long.toString(s.samples()),
                    Long.toString(s.lostSamples()),
                    Long.toString(s.edges()),
                    Long.toString(s.speedReadings()));
        }
        return table.lines();
    }

    private static List<String> captures(RecordingContent content) {
        TextTable table =
                new TextTable(
                        "Capture", "Point", "Regime", "Load", ">From, s", ">Length, s", ">Samples");
        for (Captured c : content.captures()) {
            table.row(
                    String.format(Locale.ROOT, "c%02d", c.number()),
                    PartWords.plain(c.capture().point()),
                    c.capture().regime().word(),
                    c.capture().condition().toString(),
                    Prose.fixed(c.fromS(), 1),
                    Prose.fixed(c.toS() - c.fromS(), 1),
                    Long.toString(c.samples()));
        }
        return table.lines();
    }

    private static List<String> gaps(RecordingContent content) {
        List<String> lines = new ArrayList<>();
        lines.add("Missing:");
        for (Gap gap : content.gaps().subList(0, Math.min(GAPS_SHOWN, content.gaps().size()))) {
            String many =
                    gap.missing().isPresent()
                            ? gap.missing().getAsLong() + " samples"
                            : "an unknown number of samples";
            lines.add(
                    String.format(Locale.ROOT, "  at %.2f s: %s, %s", gap.atS(), many, gap.why()));
        }
        if (content.gaps().size() > GAPS_SHOWN) {
            lines.add("  and " + (content.gaps().size() - GAPS_SHOWN) + " more; --json lists all");
        }
        return lines;
    }
}
