package tickover.cli;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.session.SimulatedFolders;
import tickover.sim.SimulatedVisit;
import tickover.sim.Workshop;

/** Simulated visits, for practice and for tests. */
@Command(
        name = "simulate",
        description = {
            "Writes simulated workshop visits as visit folders, for practice and for tests: an"
                    + " engine with a drive of its own, something wrong with it or not, recorded"
                    + " as well or as badly as workshops do.",
            "",
            "The same seed always gives the same visit. What is really wrong is told only with"
                    + " --truth.",
            "",
            "With --live no folder is written but a simulated probe waits at a port of its own, to"
                    + " be recorded from like a real one, until Ctrl-C (Linux and macOS)."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover simulate --seed 7 practice",
            "  tickover findings practice/visit-7",
            "  tickover simulate --seed 7 --count 3 --truth --json more-practice",
            "  tickover simulate --live practice"
        })
final class SimulateVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(
            paramLabel = "DIR",
            description =
                    "Folder that gets one visit folder per seed, or with --live the vehicle's"
                            + " description; made if need be.")
    private Path folder;

    @Option(
            names = "--seed",
            paramLabel = "N",
            description = "Seed of the first visit. Default: ${DEFAULT-VALUE}.")
    private long seed = Workshop.TUNING_SEEDS_FROM;

    @Option(
            names = "--count",
            paramLabel = "N",
            description = "How many visits, of as many seeds in a row. Default: ${DEFAULT-VALUE}.")
    private int count = 1;

    @Option(names = "--truth", description = "Also tell what is really wrong.")
    private boolean tellTruth;

    @Option(
            names = "--live",
            description =
                    "Play ML-07's visit through a port: the command to record it with is shown.")
    private boolean live;

    @Option(names = "--obd", description = "With --live: a speed adapter at a second port as well.")
    private boolean adapter;

    SimulateVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    /** One visit that was written. */
    private record Written(long seed, Path folder, SimulatedVisit visit) {}

    @Override
    public Integer call() throws IOException {
        if (live) {
            return new LiveSimulation(terminal).run(folder, adapter);
        }
        if (adapter) {
            throw CliException.badInput("--obd goes with --live");
        }
        if (!(count >= 1)) {
            throw CliException.badInput("--count " + count + ": need 1 or more");
        }
        List<Written> all = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            terminal.progress("simulating visit " + (i + 1) + " of " + count);
            SimulatedVisit visit = Workshop.visit(seed + i);
            Path into = folder.resolve("visit-" + (seed + i));
            SimulatedFolders.write(visit, into);
            all.add(new Written(seed + i, into, visit));
            if (!shared.json()) {
                terminal.progressDone();
                terminal.line(sentence(all.get(i)));
            }
        }
        terminal.progressDone();
        if (shared.json()) {
            terminal.json(json(all));
        }
        return ExitCode.DONE;
    }

    private String sentence(Written w) {
        String truth =
                tellTruth
                        ? "; the truth: "
                                + w.visit().truth().component()
                                + ", "
                                + w.visit().truth().fault().word()
                        : "";
        return "wrote "
                + w.folder()
                + " ("
                + w.visit().vehicle().unit()
                + ", "
                + w.visit().captures().size()
                + " captures)"
                + truth;
    }

    private JsonArray json(List<Written> all) {
        return Json.array(
                all,
                w -> {
                    JsonObject o = new JsonObject();
                    o.addProperty("seed", w.seed());
                    o.addProperty("folder", w.folder().toString());
                    o.addProperty("unit", w.visit().vehicle().unit());
                    o.addProperty("captures", w.visit().captures().size());
                    if (tellTruth) {
                        o.addProperty("component", w.visit().truth().component());
                        o.addProperty("fault", w.visit().truth().fault().word());
                        Json.put(o, "severityRatio", w.visit().truth().severityRatio());
                    }
                    return o;
                });
    }
}
