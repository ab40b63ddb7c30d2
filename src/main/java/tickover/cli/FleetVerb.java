package tickover.cli;

import com.google.gson.JsonObject;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.diagnose.VehicleTrend;
import tickover.drive.PartWords;
import tickover.store.FleetLine;
import tickover.store.Log;

/** Which vehicles need a look, and why. */
@Command(
        name = "fleet",
        description = {
            "Ranks the vehicles of the log by what needs attention, and says why: a part that the"
                    + " last visit names, a level that rises more than chance explains, a repair"
                    + " that nothing proves yet.",
            "",
            "All series of a vehicle's last visit are looked at together (Holm's method): of an"
                    + " unchanged vehicle at most 5 visits in 100 are called by their levels."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover fleet",
            "  tickover fleet --attention --role idler",
            "  tickover fleet --since 2026-01-01 --csv fleet.csv",
            "  tickover fleet --json"
        })
final class FleetVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(arity = "0..*", paramLabel = "UNIT", description = "Only these vehicles.")
    private List<String> units = new ArrayList<>();

    @Option(
            names = "--part",
            paramLabel = "PART",
            description = "Only vehicles with a reason about this part.")
    private String part;

    @Option(
            names = "--role",
            paramLabel = "ROLE",
            description = "Only vehicles with a reason about a part of this role, such as idler.")
    private String role;

    @Option(
            names = "--since",
            paramLabel = "DATE",
            description = "Only vehicles seen on or after this day, such as 2026-03-01.")
    private LocalDate since;

    @Option(names = "--attention", description = "Only vehicles that need a look.")
    private boolean attention;

    @Option(
            names = "--csv",
            paramLabel = "FILE",
            description =
                    "Write one row per vehicle and reason as CSV; - is standard output, instead of"
                            + " the answer.")
    private Path csv;

    FleetVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        boolean csvToOutput = csv != null && csv.toString().equals("-");
        if (csvToOutput && shared.json()) {
            throw CliException.badInput(
                    "--csv - and --json both want standard output; name a file for the CSV");
        }
        List<FleetLine> all;
        try (Log log = Log.open(shared.log())) {
            Fleets.refresh(log, terminal);
            all = log.history().fleet();
        }
        for (String unit : units) {
            if (all.stream().noneMatch(l -> l.unit().equals(unit))) {
                throw CliException.badInput(
                        "there is no vehicle "
                                + unit
                                + " in the log; 'tickover vehicles' lists those there are");
            }
        }
        List<FleetLine> chosen = all.stream().filter(this::chosen).toList();
        if (csvToOutput) {
            terminal.out().print(csv(chosen));
            return ExitCode.DONE;
        }
        if (csv != null) {
            OutputFile.write(csv, csv(chosen).getBytes(StandardCharsets.UTF_8), terminal);
        }
        if (shared.json()) {
            JsonObject o = new JsonObject();
            Json.put(o, "falseAlarmsPerVisit", VehicleTrend.FALSE_ALARMS_PER_VISIT);
            o.add("vehicles", Json.array(chosen, FleetVerb::json));
            terminal.json(o);
        } else {
            terminal.lines(text(all, chosen));
        }
        return ExitCode.DONE;
    }

    private boolean chosen(FleetLine line) {
        return (units.isEmpty() || units.contains(line.unit()))
                && (part == null
                        || line.reasons().stream()
                                .anyMatch(
                                        r ->
                                                PartWords.find(part, List.of(r.attention().part()))
                                                        .isPresent()))
                && (role == null || line.reasons().stream().anyMatch(r -> r.role().equals(role)))
                && (since == null
                        || line.lastSeen().map(d -> !d.toLocalDate().isBefore(since)).orElse(false))
                && (!attention || line.urgency() > 0);
    }

    private List<String> text(List<FleetLine> all, List<FleetLine> chosen) {
        List<String> lines = new ArrayList<>();
        if (all.isEmpty()) {
            lines.add(
                    "The log at "
                            + shared.log()
                            + " knows no vehicle; 'tickover import DIR' takes a visit in.");
            return lines;
        }
        int visits = all.stream().mapToInt(FleetLine::visits).sum();
        long needing = all.stream().filter(l -> l.urgency() > 0).count();
        lines.add(
                all.size()
                        + (all.size() == 1 ? " vehicle, " : " vehicles, ")
                        + visits
                        + (visits == 1 ? " visit" : " visits")
                        + "; "
                        + needing
                        + (needing == 1 ? " needs a look." : " need a look."));
        List<String> quiet = new ArrayList<>();
        for (FleetLine line : chosen) {
            if (line.urgency() == 0) {
                quiet.add(line.unit());
                continue;
            }
            lines.add("");
            lines.add(
                    String.format(Locale.ROOT, "%-3s ", "!".repeat(line.urgency()))
                            + line.unit()
                            + line.lastSeen()
                                    .map(LocalDateTime::toLocalDate)
                                    .map(d -> ", seen " + d)
                                    .orElse("")
                            + ", "
                            + line.visits()
                            + (line.visits() == 1 ? " visit" : " visits"));
            for (FleetLine.Reason r : line.reasons()) {
                lines.addAll(Prose.fold("      - ", r.attention().sentence()));
            }
        }
        lines.add("");
        if (!quiet.isEmpty()) {
            lines.addAll(
                    Prose.fold(
                            "", "Nothing calls for a look at " + String.join(", ", quiet) + "."));
        } else if (chosen.isEmpty()) {
            lines.add("No vehicle is left by these filters.");
        }
        lines.addAll(
                Prose.fold(
                        "",
                        "!!! the last visit by itself names a part that also rises; !! it names"
                            + " one, with earlier visits weighed in, or one rises; ! something is"
                            + " open. Levels alone call at most 5 of 100 visits of an unchanged"
                            + " vehicle."));
        return lines;
    }

    private static JsonObject json(FleetLine line) {
        JsonObject o = new JsonObject();
        o.addProperty("unit", line.unit());
        o.addProperty("urgency", line.urgency());
        o.addProperty("visits", line.visits());
        line.lastVisit().ifPresent(v -> o.addProperty("lastVisit", v.toString()));
        line.lastSeen().ifPresent(d -> o.addProperty("lastSeen", d.toString()));
        line.verdict().ifPresent(v -> o.addProperty("verdict", v.word()));
        o.addProperty("seriesAsked", line.seriesAsked());
        o.add("reasons", Json.array(line.reasons(), FleetVerb::reason));
        return o;
    }

    private static JsonObject reason(FleetLine.Reason r) {
        JsonObject o = new JsonObject();
        o.addProperty("kind", r.attention().kind().word());
        o.addProperty("part", r.attention().part());
        o.addProperty("role", r.role());
        Json.put(o, "chance", r.attention().chance());
        Json.putIfPresent(o, "changeDb", r.attention().changeDb());
        o.addProperty("text", r.attention().sentence());
        return o;
    }

    private static String csv(List<FleetLine> lines) {
        Csv csv =
                new Csv(
                        "unit",
                        "urgency",
                        "visits",
                        "last_seen",
                        "verdict",
                        "kind",
                        "part",
                        "role",
                        "chance",
                        "change_db",
                        "reason");
        for (FleetLine l : lines) {
            Object seen = l.lastSeen().map(Object::toString).orElse("");
            Object verdict = l.verdict().map(v -> v.word()).orElse("");
            if (l.reasons().isEmpty()) {
                csv.row(l.unit(), l.urgency(), l.visits(), seen, verdict, "", "", "", "", "", "");
            }
            for (FleetLine.Reason r : l.reasons()) {
                csv.row(
                        l.unit(),
                        l.urgency(),
                        l.visits(),
                        seen,
                        verdict,
                        r.attention().kind().word(),
                        PartWords.plain(r.attention().part()),
                        r.role(),
                        r.attention().chance(),
                        r.attention().changeDb().isPresent()
                                ? r.attention().changeDb().getAsDouble()
                                : "",
                        r.attention().sentence());
            }
        }
        return csv.text();
    }
}
