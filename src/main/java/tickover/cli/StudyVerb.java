package tickover.cli;

import com.google.gson.JsonObject;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.function.Function;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
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
            "  tickover study --faults 100 --healthy 20",
            "  tickover study --learn 400 --weights ranking-weights.properties"
        })
final class StudyVerb implements Callable<Integer> {
    private static final double RIDGE = 0.5;
    private static final double[] BINS = {0, 0.4, 0.6, 0.8, 0.9, 0.97, 1.000001};

    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Option(
            names = "--faults",
            paramLabel = "N",
            description = "Visits with a fault, of every kind in turn. Default: ${DEFAULT-VALUE}.")
    private int faults = 100;

    @Option(
            names = "--healthy",
            paramLabel = "N",
            description = "Visits of healthy engines. Default: ${DEFAULT-VALUE}.")
    private int healthy = 20;

    @Option(
            names = "--first",
            paramLabel = "SEED",
            description = "First seed. Default: the first test seed, ${DEFAULT-VALUE}.")
    private long first = Workshop.TEST_SEEDS_FROM;

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

    StudyVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        RankingStudy study = new RankingStudy(scratch(), keep != null);
        if (learn > 0) {
            String text =
                    study.learn(Workshop.TUNING_SEEDS_FROM, learn, RIDGE, this::progress).toText();
            terminal.progressDone();
            try {
                Files.writeString(weights, text);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
            terminal.line("wrote " + weights + ", learned on " + learn + " visits");
            return ExitCode.DONE;
        }
        List<Outcome> outcomes = new ArrayList<>();
        outcomes.addAll(study.judgeFaults(first, faults, this::progress));
        outcomes.addAll(study.judgeHealthy(first + faults, healthy, this::progress));
        terminal.progressDone();
        if (shared.json()) {
            terminal.json(Json.array(outcomes, StudyVerb::json));
        } else {
            tables(outcomes);
        }
        return ExitCode.DONE;
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
        terminal.progress("visit " + done + " of " + total);
    }

    private void tables(List<Outcome> outcomes) {
        List<Outcome> faulty =
                outcomes.stream().filter(o -> !o.component().equals("none")).toList();
        long right = faulty.stream().filter(Outcome::rightPart).count();
        long accused = outcomes.stream().filter(Outcome::falselyAccused).count();
        terminal.line(
                "Right part first among the parts: "
                        + right
                        + " of "
                        + faulty.size()
                        + ". Healthy engines accused: "
                        + accused
                        + " of "
                        + (outcomes.size() - faulty.size())
                        + ".");
        group("fault", faulty, o -> o.fault().word());
        group("speed source", faulty, Outcome::speed);
        group("severity", faulty, o -> severity(o.severityRatio()));
        reliability(outcomes);
    }

    private static String severity(double ratio) {
        return ratio < 1 / 3.0 ? "weak" : ratio < 2 / 3.0 ? "middling" : "strong";
    }

    private void group(String title, List<Outcome> outcomes, Function<Outcome, String> key) {
        Map<String, List<Outcome>> groups = new LinkedHashMap<>();
        outcomes.forEach(o -> groups.computeIfAbsent(key.apply(o), k -> new ArrayList<>()).add(o));
        terminal.gap();
        terminal.line(
                "| "
                        + title
                        + " | visits | right part first | the same with `none` ranked too | named,"
                        + " and right |");
        terminal.line("|---|---|---|---|---|");
        groups.forEach(
                (name, list) -> {
                    long right = list.stream().filter(Outcome::right).count();
                    long part = list.stream().filter(Outcome::rightPart).count();
                    List<Outcome> named = list.stream().filter(Outcome::named).toList();
                    long namedRight = named.stream().filter(Outcome::right).count();
                    terminal.line(
                            "| "
                                    + name
                                    + " | "
                                    + list.size()
                                    + " | "
                                    + part
                                    + " | "
                                    + right
                                    + " | "
                                    + namedRight
                                    + " of "
                                    + named.size()
                                    + " |");
                });
    }

    private void reliability(List<Outcome> outcomes) {
        terminal.gap();
        terminal.line("| probability of the first | visits | mean probability | right |");
        terminal.line("|---|---|---|---|");
        for (int b = 0; b + 1 < BINS.length; b++) {
            double from = BINS[b];
            double to = BINS[b + 1];
            List<Outcome> in =
                    outcomes.stream()
                            .filter(
                                    o ->
                                            o.first().probability() >= from
                                                    && o.first().probability() < to)
                            .toList();
            if (!in.isEmpty()) {
                double mean =
                        in.stream().mapToDouble(o -> o.first().probability()).average().orElse(0);
                double right = (double) in.stream().filter(Outcome::right).count() / in.size();
                terminal.line(
                        String.format(
                                Locale.ROOT,
                                "| %.2f to %.2f | %d | %.2f | %.2f |",
                                from,
                                Math.min(1, to),
                                in.size(),
                                mean,
                                right));
            }
        }
    }

    private static JsonObject json(Outcome o) {
        JsonObject object = new JsonObject();
        object.addProperty("seed", o.seed());
        object.addProperty("component", o.component());
        object.addProperty("fault", o.fault().word());
        Json.put(object, "severityRatio", o.severityRatio());
        object.addProperty("speed", o.speed());
        object.addProperty("verdict", o.verdict().word());
        object.addProperty("first", o.first().component());
        object.addProperty("firstPart", o.firstPart().component());
        object.addProperty("firstFault", o.first().fault().word());
        Json.put(object, "probability", o.first().probability());
        return object;
    }
}
