package tickover.cli;

import com.google.gson.JsonObject;
import java.time.Clock;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.Period;
import java.time.ZoneId;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tickover.store.LogPlace;
import tickover.store.Tidy;

/** Removes old raw recordings by a rule. */
@Command(
        name = "tidy",
        description = {
            "Makes room: removes the raw recordings (.wav, .tkr) of old visits from the log.",
            "",
            "Findings, levels, notes and the visit's texts stay, and trends go on as before; what"
                    + " is gone for good is that the visit can be listened to, looked at closer or"
                    + " analysed again. Visits that were never analysed keep their recordings. Try"
                    + " it with --dry-run, and make a backup, first."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover tidy --raw-older-than 24mo --keep-latest 2 --dry-run",
            "  tickover tidy --raw-older-than 3y"
        })
final class TidyVerb implements Callable<Integer> {
    private static final Pattern AGE =
            Pattern.compile("(\\d{1,4})(d|w|mo|y)", Pattern.CASE_INSENSITIVE);

    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Option(
            names = "--raw-older-than",
            paramLabel = "AGE",
            required = true,
            description = "Remove recordings of visits older than this: 90d, 12w, 24mo or 3y.")
    private String age;

    @Option(
            names = "--keep-latest",
            paramLabel = "N",
            description =
                    "Latest visits of each vehicle that keep their recordings whatever their age."
                            + " Default: ${DEFAULT-VALUE}.")
    private int keepLatest = 1;

    @Option(names = "--dry-run", description = "List what would go, and remove nothing.")
    private boolean dryRun;

    TidyVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        Tidy.Rule rule = rule(LocalDate.now(ZoneId.systemDefault()));
        LogPlace data = shared.log();
        Tidy.Plan plan;
        try {
            plan =
                    dryRun
                            ? Tidy.plan(data, rule)
                            : Tidy.remove(
                                    data,
                                    rule,
                                    Clock.systemUTC(),
                                    (done, total) ->
                                            terminal.progress(
                                                    "removing recordings of visit "
                                                            + done
                                                            + " of "
                                                            + total));
        } finally {
            terminal.progressDone();
        }
        if (shared.json()) {
            terminal.json(json(plan));
        } else {
            print(plan);
        }
        return ExitCode.DONE;
    }

    private Tidy.Rule rule(LocalDate today) {
        if (!(keepLatest >= 0)) {
            throw CliException.badInput("--keep-latest " + keepLatest + ": give 0 or more");
        }
        Matcher m = AGE.matcher(age);
        if (!m.matches()) {
            throw CliException.badInput(
                    "--raw-older-than '"
                            + age
                            + "' is no age; write days, weeks, months or years such as 90d, 12w,"
                            + " 24mo or 3y");
        }
        int n = Integer.parseInt(m.group(1));
        Period period =
                switch (m.group(2).toLowerCase(Locale.ROOT)) {
                    case "d" -> Period.ofDays(n);
                    case "w" -> Period.ofWeeks(n);
                    case "mo" -> Period.ofMonths(n);
                    default -> Period.ofYears(n);
                };
        try {
            return new Tidy.Rule(today.minus(period), keepLatest);
        } catch (DateTimeException e) {
            throw CliException.badInput("--raw-older-than " + age + " is before all calendars", e);
        }
    }

    private void print(Tidy.Plan plan) {
        if (dryRun) {
            for (Tidy.Old visit : plan.visits()) {
                for (Tidy.Raw file : visit.files()) {
                    terminal.line(
                            visit.unit()
                                    + " of "
                                    + visit.date().toLocalDate()
                                    + "  "
                                    + visit.id()
                                    + "/"
                                    + file.name()
                                    + "  "
                                    + Amounts.bytes(file.bytes()));
                }
            }
        }
        terminal.line(
                (dryRun ? "Would remove " : "Removed ")
                        + Amounts.count(plan.files(), "raw recording")
                        + " of "
                        + Amounts.count(plan.visits().size(), "visit")
                        + ", "
                        + Amounts.bytes(plan.bytes())
                        + ": "
                        + plan.rule().text()
                        + ".");
        if (plan.neverAnalysed() > 0) {
            terminal.line(
                    Amounts.count(plan.neverAnalysed(), "old visit")
                            + (plan.neverAnalysed() == 1 ? " was" : " were")
                            + " never analysed and so kept: 'tickover reanalyse --all'"
                            + " analyses them.");
        }
    }

    private JsonObject json(Tidy.Plan plan) {
        JsonObject o = new JsonObject();
        o.addProperty("dryRun", dryRun);
        o.addProperty("before", plan.rule().before().toString());
        o.addProperty("keepLatest", plan.rule().keepLatest());
        o.addProperty("files", plan.files());
        o.addProperty("bytes", plan.bytes());
        o.addProperty("neverAnalysed", plan.neverAnalysed());
        o.add(
                "visits",
                Json.array(
                        plan.visits(),
                        v -> {
                            JsonObject line = new JsonObject();
                            line.addProperty("visit", v.id().toString());
                            line.addProperty("unit", v.unit());
                            line.addProperty("date", v.date().toString());
                            line.add(
                                    "files",
                                    Json.array(
                                            v.files(),
                                            f -> {
                                                JsonObject file = new JsonObject();
                                                file.addProperty("name", f.name());
                                                file.addProperty("bytes", f.bytes());
                                                return file;
                                            }));
                            return line;
                        }));
        return o;
    }
}
