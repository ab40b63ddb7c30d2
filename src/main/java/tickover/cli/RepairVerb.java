package tickover.cli;

import com.google.gson.JsonObject;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.diagnose.RepairMark;
import tickover.drive.PartWords;
import tickover.store.Log;

/** Marks repairs, which restart baselines. */
@Command(
        name = "repair",
        description = {
            "Marks a repair, so that the part's baseline starts anew after it; without a TEXT lists"
                    + " the marks.",
            "",
            "A day without a time stands for the end of that day: visits of the day count as before"
                    + " the repair. Without --part the mark is of the whole front. A mark that was"
                    + " taken back stays in the log and counts no more."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover repair ML-07 \"new idler\" --part idler --date 2026-10-14",
            "  tickover repair ML-07",
            "  tickover repair --withdraw 0b6f6c1e-6a51-4d3b-9d2c-1f1f5c2a7a10"
        })
final class RepairVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(
            index = "0",
            arity = "0..1",
            paramLabel = "UNIT",
            description = "The fleet's name of the vehicle.")
    private String unit;

    @Parameters(index = "1", arity = "0..1", paramLabel = "TEXT", description = "What was done.")
    private String text;

    @Option(
            names = "--part",
            paramLabel = "PART",
            description =
                    "The part: a pulley (water-pump or \"water pump\"), belt:NAME, engine or"
                            + " injectors.")
    private String part = "";

    @Option(names = "--date", paramLabel = "DATE", description = "When it was done. Default: now.")
    private String date;

    @Option(names = "--withdraw", paramLabel = "ID", description = "Take a mark back.")
    private UUID withdrawn;

    RepairVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        try (Log log = Log.open(shared.log())) {
            if (withdrawn != null) {
                return Withdrawal.of(log, withdrawn, "repair mark", terminal);
            }
            if (text != null) {
                return add(log);
            }
            List<RepairMark> marks =
                    unit == null ? log.history().repairs() : log.history().repairs(unit);
            if (shared.json()) {
                terminal.json(Json.array(marks, RepairVerb::json));
            } else if (marks.isEmpty()) {
                terminal.line(
                        "No repair is marked"
                                + (unit == null ? "" : " of " + unit)
                                + "; 'tickover repair UNIT TEXT --part PART' marks one.");
            } else {
                TextTable table = new TextTable("Id", "Unit", "Date", "Part", "What was done");
                for (RepairMark m : marks) {
                    table.row(
                            m.id().toString(),
                            m.unit(),
                            m.at().toString(),
                            m.part().isEmpty() ? "whole front" : PartWords.plain(m.part()),
                            m.text());
                }
                terminal.lines(table.lines());
            }
            return ExitCode.DONE;
        }
    }

    private int add(Log log) {
        LocalDateTime at = date == null ? Moment.now() : Moment.of("--date", date);
        requirePart(log);
        RepairMark mark = log.history().addRepair(unit, at, part, text);
        if (shared.json()) {
            terminal.json(json(mark));
        } else {
            terminal.line(
                    "Marked: "
                            + text
                            + ". "
                            + (part.isEmpty()
                                    ? "Every part of " + unit
                                    : unit + "'s " + PartWords.plain(part))
                            + " begins a new baseline with the first visit after "
                            + at.toLocalDate()
                            + "; one visit proves the repair ('tickover compare').");
        }
        return ExitCode.DONE;
    }

    /** A misspelt part would restart nothing, and nobody would notice. */
    private void requirePart(Log log) {
        List<String> known = log.history().trend(unit).parts();
        if (part.isEmpty() || known.isEmpty()) {
            return;
        }
        Optional<String> meant = PartWords.find(part, known);
        if (meant.isEmpty()) {
            throw CliException.badInput(
                    "--part "
                            + part
                            + ": nothing of this name was ever measured on "
                            + unit
                            + "; there are "
                            + String.join(", ", known));
        }
        part = meant.get();
    }

    private static JsonObject json(RepairMark m) {
        JsonObject o = new JsonObject();
        o.addProperty("id", m.id().toString());
        o.addProperty("unit", m.unit());
        o.addProperty("date", m.at().toString());
        o.addProperty("part", m.part());
        o.addProperty("text", m.text());
        return o;
    }
}
