package tickover.cli;

import com.google.gson.JsonObject;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.session.LiveReading;
import tickover.session.RecordingContent;

/** Runs a recording through the live pipeline again. */
@Command(
        name = "replay",
        description = {
            "Runs a recording through the same computation as when it was live, as fast as it goes,"
                    + " and says what it holds: devices, bytes, captures, and everything that is"
                    + " missing. Nothing is changed."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover replay idler-aircon.tkr",
            "  tickover replay --seconds idler-aircon.tkr",
            "  tickover replay --json idler-aircon.tkr"
        })
final class ReplayVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(paramLabel = "FILE", description = "A recording.")
    private Path file;

    @Option(names = "--seconds", description = "Also level and speed, second by second.")
    private boolean seconds;

    ReplayVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        terminal.progress("reading " + file);
        RecordingContent content;
        try {
            content = RecordingContent.of(file);
        } finally {
            terminal.progressDone();
        }
        if (shared.json()) {
            JsonObject o = RecordingJson.of(content);
            if (seconds) {
                o.add("readings", Json.array(content.readings(), RecordingJson::reading));
            }
            terminal.json(o);
            return ExitCode.DONE;
        }
        terminal.lines(RecordingText.of(content));
        if (seconds) {
            terminal.gap();
            terminal.lines(table(content).lines());
        }
        return ExitCode.DONE;
    }

    private static TextTable table(RecordingContent content) {
        TextTable table =
                new TextTable(
                        ">Device",
                        ">To, s",
                        ">Speed, rpm",
                        ">rms, m/s²",
                        ">Peak, m/s²",
                        ">Samples");
        for (LiveReading r : content.readings()) {
            table.row(
                    Integer.toString(r.source()),
                    Prose.fixed(r.endS(), 0),
                    r.speedRpm().isPresent() ? Prose.fixed(r.speedRpm().getAsDouble(), 1) : "-",
                    Prose.three(r.rmsMps2()),
                    Prose.three(r.peakMps2()),
                    r.samples()
                            + (r.samples() == r.expectedSamples()
                                    ? ""
                                    : " of " + r.expectedSamples()));
        }
        return table;
    }
}
