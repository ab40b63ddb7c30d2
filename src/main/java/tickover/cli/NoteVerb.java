package tickover.cli;

import com.google.gson.JsonObject;
import java.time.LocalDateTime;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.drive.PartWords;
import tickover.store.Log;
import tickover.store.Note;

/** Writes down and lists what people want remembered. */
@Command(
        name = "note",
        description = {
            "Writes something down about a vehicle; without a TEXT lists the notes.",
            "",
            "A note changes no baseline; 'tickover repair' does. A note that was taken back stays"
                    + " in the log and is listed no more."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover note ML-07 \"grinds only below 5 degrees\" --part idler",
            "  tickover note ML-07",
            "  tickover note --json"
        })
final class NoteVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(
            index = "0",
            arity = "0..1",
            paramLabel = "UNIT",
            description = "The fleet's name of the vehicle.")
    private String unit;

    @Parameters(
            index = "1",
            arity = "0..1",
            paramLabel = "TEXT",
            description = "What is to be remembered.")
    private String text;

    @Option(names = "--part", paramLabel = "PART", description = "The part it is about.")
    private String part = "";

    @Option(
            names = "--visit",
            paramLabel = "VISIT",
            description = "The visit that it is about, by the first characters of its id.")
    private String visit;

    @Option(names = "--date", paramLabel = "DATE", description = "When it was so. Default: now.")
    private String date;

    @Option(names = "--withdraw", paramLabel = "ID", description = "Take a note back.")
    private UUID withdrawn;

    NoteVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        Visits visits = new Visits(terminal, shared.log());
        try (Log log = visits.openLog()) {
            if (withdrawn != null) {
                return Withdrawal.of(log, withdrawn, "note", terminal);
            }
            if (text != null) {
                return add(log, visits);
            }
            List<Note> notes = unit == null ? log.history().notes() : log.history().notes(unit);
            if (shared.json()) {
                terminal.json(Json.array(notes, NoteVerb::json));
            } else if (notes.isEmpty()) {
                terminal.line(
                        "There is no note"
                                + (unit == null ? "" : " about " + unit)
                                + "; 'tickover note UNIT TEXT' writes one.");
            } else {
                TextTable table = new TextTable("Id", "Unit", "Date", "Part", "Note");
                for (Note n : notes) {
                    table.row(
                            n.id().toString(),
                            n.unit(),
                            n.at().toString(),
                            PartWords.plain(n.part()),
                            n.text());
                }
                terminal.lines(table.lines());
            }
            return ExitCode.DONE;
        }
    }

    private int add(Log log, Visits visits) {
        if (text.isBlank()) {
            throw CliException.badInput("the note is empty; write what is to be remembered");
        }
        LocalDateTime at = date == null ? Moment.now() : Moment.of("--date", date);
        part = PartWords.find(part, log.history().trend(unit).parts()).orElse(part);
        String about = visit == null ? "" : visits.id(visit, log.visits(unit)).toString();
        Note note = new Note(UUID.randomUUID(), unit, at, part, about, text);
        log.history().addNote(note);
        if (shared.json()) {
            terminal.json(json(note));
        } else {
            terminal.line("Noted about " + unit + ".");
        }
        return ExitCode.DONE;
    }

    private static JsonObject json(Note n) {
        JsonObject o = new JsonObject();
        o.addProperty("id", n.id().toString());
        o.addProperty("unit", n.unit());
        o.addProperty("date", n.at().toString());
        o.addProperty("part", n.part());
        if (!n.visitId().isEmpty()) {
            o.addProperty("visit", n.visitId());
        }
        o.addProperty("text", n.text());
        return o;
    }
}
