package tickover.cli;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.session.Reanalysis;
import tickover.store.KeptVisit;
import tickover.store.Log;
import tickover.store.LogPlace;

/** Runs old recordings through today's code. */
@Command(
        name = "reanalyse",
        description = {
            "Runs the recordings of old visits through today's code, and lists what it sees"
                    + " otherwise: verdict, suspect, probability, levels beyond their errors.",
            "",
            "Both results are kept; the newer counts. Each is saved as soon as it is there: stop it"
                    + " with Ctrl-C whenever you like, and the same command goes on behind what"
                    + " this version has analysed already."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover reanalyse --all",
            "  tickover reanalyse --since 2026-01-01 --vehicle ML-07",
            "  tickover reanalyse 0195f0c2"
        })
final class ReanalyseVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(
            paramLabel = "VISIT",
            arity = "0..*",
            description = "Ids of imported visits, or their first characters.")
    private List<String> names = new ArrayList<>();

    @Option(names = "--all", description = "Every visit in the log.")
    private boolean all;

    @Option(
            names = "--since",
            paramLabel = "DATE",
            description = "Every visit of this day (2026-03-04) and later.")
    private LocalDate since;

    @Option(
            names = "--vehicle",
            paramLabel = "UNIT",
            description = "Only visits of this vehicle, by the fleet's name for it.")
    private String unit;

    ReanalyseVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        LogPlace data = shared.log();
        List<KeptVisit> visits = chosen(new Visits(terminal, data));
        List<Reanalysis.Line> lines = new ArrayList<>();
        terminal.progress("analysing " + Amounts.count(visits.size(), "visit"));
        try {
            Reanalysis.run(
                    data,
                    visits,
                    (line, done, total) -> {
                        lines.add(line);
                        terminal.progressDone();
                        if (!shared.json()) {
                            terminal.lines(ReanalysisText.lines(line));
                        }
                        if (line.outcome() == Reanalysis.Outcome.FAILED) {
                            terminal.note(ReanalysisText.title(line) + ": " + line.why() + ".");
                        }
                        terminal.progress("analysed " + done + " of " + total + " visits");
                    });
        } finally {
            terminal.progressDone();
        }
        if (shared.json()) {
            lines.sort(Comparator.comparing(l -> l.visit().date()));
            terminal.json(Json.array(lines, ReanalysisText::json));
        } else {
            terminal.line(ReanalysisText.summary(lines));
        }
        return lines.stream().anyMatch(l -> l.outcome() == Reanalysis.Outcome.FAILED)
                ? ExitCode.NO
                : ExitCode.DONE;
    }

    private List<KeptVisit> chosen(Visits visits) {
        if (names.isEmpty() && !all && since == null && unit == null) {
            throw CliException.badInput(
                    "say which visits: their ids, --vehicle UNIT, --since DATE, or --all");
        }
        if (!names.isEmpty() && (all || since != null || unit != null)) {
            throw CliException.badInput(
                    "name visits, or choose them by --all, --since and --vehicle, not both");
        }
        List<KeptVisit> kept;
        try (Log log = visits.openLog()) {
            kept = unit == null ? log.visits() : log.visits(unit);
        }
        if (!names.isEmpty()) {
            List<UUID> ids = names.stream().map(n -> visits.id(n, kept)).toList();
            return kept.stream().filter(v -> ids.contains(v.id())).toList();
        }
        return kept.stream()
                .filter(v -> since == null || !v.date().toLocalDate().isBefore(since))
                .toList();
    }
}
