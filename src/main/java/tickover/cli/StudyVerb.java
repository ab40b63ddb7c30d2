package tickover.cli;

import com.google.gson.JsonObject;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tickover.session.BenchStudy;
import tickover.session.HealthyStudy;
import tickover.session.RankingStudy;
import tickover.session.RankingStudy.Outcome;
import tickover.sim.Workshop;

/** How good the ranking is, measured on simulated visits; and learning it anew. */
@Command(
        name = "study",
        description = {
            "Measures the ranking on simulated visits that it was not learned from, or learns its"
                    + " weights anew. Each visit takes some seconds.",
            "",
            "Tables are Markdown. Visits come from the test seeds unless --first says otherwise."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover study --visits 300 --diagram reliability.svg",
            "  tickover study --learn 600 --weights ranking-weights.properties",
            "  tickover study --bench 300",
            "  tickover study --healthy-captures 2000"
        })
final class StudyVerb implements Callable<Integer> {
    private static final double RIDGE = 0.5;

    private static final int DIAGRAM_WIDTH_PIXELS = 640;
    private static final int DIAGRAM_HEIGHT_PIXELS = 560;

    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Option(
            names = "--visits",
            paramLabel = "N",
            description =
                    "Visits as workshops hand them in, a quarter of them of healthy engines."
                            + " Default: ${DEFAULT-VALUE}.")
    private int visits = 300;

    @Option(
            names = "--first",
            paramLabel = "SEED",
            description = "First seed. Default: the first test seed, ${DEFAULT-VALUE}.")
    private long first = Workshop.TEST_SEEDS_FROM;

    @Option(
            names = "--earlier",
            paramLabel = "N",
            description =
                    "So many earlier visits of each vehicle are known, when it was well. Default:"
                            + " ${DEFAULT-VALUE}.")
    private int earlier;

    @Option(
            names = "--learn",
            paramLabel = "N",
            description = "Learn weights on N visits from the tuning seeds instead.")
    private int learn;

    @Option(
            names = "--weights",
            paramLabel = "FILE",
            description = "Where --learn writes the weights.")
    private Path weights = Path.of("ranking-weights.properties");

    @Option(
            names = "--keep",
            paramLabel = "DIR",
            description = "Keep the simulated visits there, and use those that are there.")
    private Path keep;

    @Option(
            names = "--diagram",
            paramLabel = "FILE",
            description =
                    "Draw there, as SVG, how often the first candidate was right over what"
                            + " its probability said.")
    private Path diagram;

    @Option(
            names = "--bench",
            paramLabel = "N",
            description = "Judge N simulated benches instead, each a removed part turned alone.")
    private int benches;

    @Option(
            names = "--healthy-captures",
            paramLabel = "N",
            description =
                    "Measure instead how often the bearing statistic speaks in N captures of"
                            + " healthy engines, at bearings' lines and beside them.")
    private int healthyCaptures;

    StudyVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        if (benches > 0) {
            List<BenchStudy.Outcome> judged = BenchStudy.judge(first, benches, this::progress);
            terminal.progressDone();
            if (shared.json()) {
                terminal.json(Json.array(judged, BenchStudyTables::json));
            } else {
                BenchStudyTables.lines(judged).forEach(terminal::line);
            }
            return ExitCode.DONE;
        }
        if (healthyCaptures > 0) {
            List<HealthyStudy.Heard> heard =
                    HealthyStudy.listen(first, healthyCaptures, this::progress);
            terminal.progressDone();
            if (shared.json()) {
                terminal.json(Json.array(heard, HealthyStudyTables::json));
            } else {
                HealthyStudyTables.lines(heard).forEach(terminal::line);
            }
            return ExitCode.DONE;
        }
        RankingStudy study = new RankingStudy(scratch(), keep != null);
        if (learn > 0) {
            String text =
                    study.learn(Workshop.TUNING_SEEDS_FROM, learn, RIDGE, this::progress).toText();
            terminal.progressDone();
            write(weights, text);
            terminal.line("wrote " + weights + ", learned on " + learn + " visits");
            return ExitCode.DONE;
        }
        List<Outcome> outcomes = study.judge(first, visits, earlier, this::progress);
        terminal.progressDone();
        if (diagram != null) {
            write(
                    diagram,
                    Reliability.of(outcomes)
                            .picture()
                            .svg(DIAGRAM_WIDTH_PIXELS, DIAGRAM_HEIGHT_PIXELS));
        }
        if (shared.json()) {
            terminal.json(Json.array(outcomes, StudyVerb::json));
        } else {
            new StudyTables(outcomes).lines().forEach(terminal::line);
        }
        return ExitCode.DONE;
    }

    private static void write(Path file, String text) {
        try {
            Files.writeString(file, text);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private Path scratch() {
        if (keep != null) {
            return keep;
        }
        try {
            return Files.createTempDirectory("tickover-study");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void progress(int done, int total) {
        terminal.progress(
                (benches > 0 ? "bench " : healthyCaptures > 0 ? "capture " : "visit ")
                        + done
                        + " of "
                        + total);
    }

    private static JsonObject json(Outcome o) {
        JsonObject object = new JsonObject();
        object.addProperty("seed", o.seed());
        object.addProperty("component", o.component());
        object.addProperty("fault", o.fault().word());
        Json.put(object, "severityRatio", o.severityRatio());
        object.addProperty("speed", o.speed());
        object.addProperty("recordedAtPart", o.recordedAtPart());
        object.add("alike", Json.words(o.alike().stream().sorted().toList()));
        object.addProperty("loudest", o.loudest());
        object.addProperty("right", o.right());
        object.addProperty("rightPart", o.rightPart());
        object.addProperty("rightPartUntold", o.rightPartUntold());
        object.addProperty("verdict", o.verdict().word());
        object.addProperty("first", o.first().component());
        object.addProperty("firstPart", o.firstPart().component());
        object.addProperty("firstFault", o.first().fault().word());
        Json.put(object, "probability", o.first().probability());
        return object;
    }
}
