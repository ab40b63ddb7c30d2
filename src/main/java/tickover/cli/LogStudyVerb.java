package tickover.cli;

import com.google.gson.JsonObject;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tickover.session.FleetStudy;

/** How fast a big log answers. */
@Command(
        name = "log",
        description = {
            "Fills a log of its own with simulated visits of a big fleet, twelve parts in four"
                    + " captures each, and measures how fast it answers.",
            "",
            "The log stays in the folder, to be asked with --data. It has levels, no recordings."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover study log --in big",
            "  tickover study log --in small --vehicles 20 --visits-each 10"
        })
final class LogStudyVerb implements Callable<Integer> {
    private static final double MEGABYTE = 1e6;

    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Option(
            names = "--in",
            paramLabel = "DIR|ADDRESS",
            required = true,
            description =
                    "A new or empty folder for the log, or the address of an empty PostgreSQL"
                            + " database, as of --data.")
    private String place;

    @Option(
            names = "--vehicles",
            paramLabel = "N",
            description = "Number of vehicles. Default: ${DEFAULT-VALUE}.")
    private int vehicles = 5000;

    @Option(
            names = "--visits-each",
            paramLabel = "N",
            description = "Visits of each. Default: ${DEFAULT-VALUE}.")
    private int visitsEach = 20;

    LogStudyVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        if (vehicles < 1 || visitsEach < 1) {
            throw CliException.badInput("--vehicles and --visits-each need at least 1");
        }
        FleetStudy.Figures f;
        try {
            f =
                    new FleetStudy(shared.log(place), vehicles, visitsEach)
                            .run(
                                    (what, done, total) ->
                                            terminal.progress(what + " " + done + " of " + total));
        } finally {
            terminal.progressDone();
        }
        if (shared.json()) {
            terminal.json(json(f));
            return ExitCode.DONE;
        }
        terminal.line(
                f.vehicles()
                        + " vehicles, "
                        + f.visits()
                        + " visits, "
                        + 48L * f.visits()
                        + " levels; "
                        + f.needLook()
                        + " vehicles need a look.");
        terminal.line(
                "Written in "
                        + Prose.fixed(f.writeS(), 1)
                        + " s ("
                        + Prose.fixed(f.visits() / f.writeS(), 0)
                        + " visits/s); the database has "
                        + Prose.fixed(f.fileBytes() / MEGABYTE, 0)
                        + " MB.");
        terminal.line("Every vehicle judged anew in " + Prose.fixed(f.judgeS(), 1) + " s.");
        terminal.line("One part's trend, its sisters too: " + times(f.trend()) + ".");
        terminal.line("Fleet's overview: " + times(f.fleet()) + ".");
        terminal.line("Overview after one vehicle changed: " + times(f.changed()) + ".");
        return ExitCode.DONE;
    }

    private static String times(FleetStudy.Times times) {
        return "median "
                + Prose.fixed(median(times.processorNs()), 1)
                + " ms of processor time, slowest "
                + Prose.fixed(slowest(times.processorNs()), 1)
                + " (by the clock "
                + Prose.fixed(median(times.clockNs()), 1)
                + " and "
                + Prose.fixed(slowest(times.clockNs()), 1)
                + ")";
    }

    private static double median(List<Long> sortedNs) {
        return sortedNs.get(sortedNs.size() / 2) / 1e6;
    }

    private static double slowest(List<Long> sortedNs) {
        return sortedNs.get(sortedNs.size() - 1) / 1e6;
    }

    private static JsonObject json(FleetStudy.Figures f) {
        JsonObject o = new JsonObject();
        o.addProperty("vehicles", f.vehicles());
        o.addProperty("visits", f.visits());
        Json.put(o, "writeS", f.writeS());
        o.addProperty("fileBytes", f.fileBytes());
        Json.put(o, "judgeS", f.judgeS());
        times(o, "trend", f.trend());
        times(o, "fleet", f.fleet());
        times(o, "changed", f.changed());
        return o;
    }

    private static void times(JsonObject o, String what, FleetStudy.Times times) {
        Json.put(o, what + "MedianProcessorMs", median(times.processorNs()));
        Json.put(o, what + "SlowestProcessorMs", slowest(times.processorNs()));
        Json.put(o, what + "MedianClockMs", median(times.clockNs()));
        Json.put(o, what + "SlowestClockMs", slowest(times.clockNs()));
    }
}
