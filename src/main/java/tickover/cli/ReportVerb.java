package tickover.cli;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.diagnose.RepairMark;
import tickover.diagnose.VisitResult;
import tickover.session.ReportMaker;
import tickover.store.KeptVisit;
import tickover.store.Log;

/** A report on one visit, to hand over. */
@Command(
        name = "report",
        description = {
            "Writes a report on a visit as HTML or PDF. The first page is for the customer: the"
                    + " complaint, the answer, the drawing of this engine's front, the reasons,"
                    + " before and after, what was not tested, what comes next. Behind it: the next"
                    + " tests and the belt's routing for the workshop; plots, levels, data quality"
                    + " and settings for whoever checks the work.",
            "",
            "The file name says the form: .html or .pdf; --output can be given twice. Both say"
                    + " the same, need nothing from the network and print on A4.",
            "",
            "An imported visit is held against the vehicle's visit before it, or against"
                    + " --against. A repair between the two (see 'tickover repair'), or"
                    + " --repaired, makes the report say whether it is proven."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover report ML-07-today -o ML-07.pdf",
            "  tickover report ML-07-today -o ML-07.html -o ML-07.pdf",
            "  tickover report ML-07-today ML-07-after-repair --repaired idler -o proof.pdf",
            "  tickover report 0195f0c2 --customer -o page.pdf"
        })
final class ReportVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(
            arity = "1..2",
            paramLabel = "VISIT",
            description =
                    "A visit folder, or the id of a visit. Two of them: the earlier one, then the"
                            + " one to report on.")
    private List<String> visits;

    @Option(
            names = {"-o", "--output", "--out"},
            required = true,
            paramLabel = "FILE",
            description = "The file to write, .html or .pdf.")
    private List<Path> files;

    @Option(
            names = "--format",
            paramLabel = "FORM",
            description =
                    "html or pdf, where the file's name does not say it (such as /dev/stdout).")
    private String format;

    @Option(
            names = "--against",
            paramLabel = "VISIT",
            description = "An earlier visit of the same vehicle to hold it against.")
    private String against;

    @Option(names = "--alone", description = "Hold it against no other visit.")
    private boolean alone;

    @Option(
            names = "--repaired",
            paramLabel = "PART",
            description =
                    "The part that was repaired since the earlier visit. Default: what the log"
                            + " says was.")
    private String repaired;

    @Option(names = "--customer", description = "The customer's page only.")
    private boolean customer;

    ReportVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    /** A file to write, and how. */
    private record Form(Path file, boolean pdf) {}

    @Override
    public Integer call() {
        List<Form> forms = forms();
        if (alone && (against != null || visits.size() > 1)) {
            throw CliException.badInput(
                    "--alone leaves out the earlier visit that is named beside it; drop one");
        }
        if (against != null && visits.size() > 1) {
            throw CliException.badInput("two visits and --against name two earlier visits");
        }
        Visits log = new Visits(terminal, shared.log());
        VisitHandle handle = log.find(visits.get(visits.size() - 1));
        Optional<VisitHandle> earlier = alone ? Optional.empty() : earlier(handle, log);
        if (repaired != null && earlier.isEmpty()) {
            throw CliException.badInput(
                    "--repaired needs a visit before the repair; name it with --against");
        }
        VisitResult result = log.result(handle);
        ReportMaker maker = new ReportMaker(handle.visit(), result);
        earlier.ifPresent(e -> hold(maker, handle, e, log));
        if (customer) {
            maker.customerOnly();
        }
        if (handle.stored()) {
            try (Log open = log.openLog()) {
                maker.trend(open.history().trend(handle.visit().vehicle().unit()));
            }
        }
        for (Form form : forms) {
            terminal.progress("drawing " + form.file());
            byte[] bytes = form.pdf() ? maker.pdf() : maker.html().getBytes(StandardCharsets.UTF_8);
            terminal.progressDone();
            OutputFile.write(form.file(), bytes, terminal);
        }
        if (shared.json()) {
            terminal.json(json(handle, forms));
        }
        return ExitCode.DONE;
    }

    /** Finds out how every file is to be written before anything is computed for it. */
    private List<Form> forms() {
        List<Form> forms = new ArrayList<>();
        for (Path file : files) {
            OutputFile.requirePlace(file);
            forms.add(new Form(file, isPdf(file)));
        }
        return forms;
    }

    private boolean isPdf(Path file) {
        String said = format != null ? format.toLowerCase(Locale.ROOT) : ending(file);
        return switch (said) {
            case "pdf" -> true;
            case "html", "htm", "xhtml" -> false;
            default ->
                    throw CliException.badInput(
                            format != null
                                    ? "--format " + format + ": there are html and pdf"
                                    : file
                                            + ": its name does not say the form; let it end in"
                                            + " .html or .pdf, or give --format");
        };
    }

    private static String ending(Path file) {
        String name = String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
        return name.substring(name.lastIndexOf('.') + 1);
    }

    private Optional<VisitHandle> earlier(VisitHandle handle, Visits log) {
        if (visits.size() > 1) {
            return Optional.of(log.find(visits.get(0)));
        }
        if (against != null) {
            return Optional.of(log.find(against));
        }
        if (!handle.stored()) {
            return Optional.empty();
        }
        List<KeptVisit> kept;
        try (Log open = log.openLog()) {
            kept = open.visits(handle.visit().vehicle().unit());
        }
        return kept.stream()
                .filter(k -> k.date().isBefore(handle.visit().date()))
                .max(Comparator.comparing(KeptVisit::date))
                .map(k -> log.find(k.id().toString()));
    }

    private void hold(ReportMaker maker, VisitHandle handle, VisitHandle earlier, Visits log) {
        TwoVisits.warnOfTwoVehicles(terminal, earlier, handle);
        VisitResult before = log.result(earlier);
        maker.against(earlier.visit(), before, repairedPart(handle, earlier, before, log));
    }

    /** The part that was repaired between two visits; empty if none is known. */
    private String repairedPart(
            VisitHandle handle, VisitHandle earlier, VisitResult before, Visits log) {
        if (repaired != null) {
            return TwoVisits.repaired(repaired, earlier, before);
        }
        if (!handle.stored() || !earlier.stored()) {
            return "";
        }
        try (Log open = log.openLog()) {
            List<RepairMark> marks = open.history().repairs(handle.visit().vehicle().unit());
            return RepairMark.partBetween(marks, earlier.visit().date(), handle.visit().date())
                    .orElse("");
        }
    }

    private static JsonObject json(VisitHandle handle, List<Form> forms) {
        JsonObject o = new JsonObject();
        o.addProperty("visit", handle.visit().id().toString());
        o.addProperty("file", forms.get(0).file().toString());
        JsonArray all = new JsonArray();
        forms.forEach(f -> all.add(f.file().toString()));
        o.add("files", all);
        return o;
    }
}
