package tickover.cli;

import com.google.gson.JsonObject;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import tickover.session.RecordingDamage;
import tickover.store.LogCheck;

/** Checks the whole log. */
@Command(
        name = "verify",
        description = {
            "Checks the whole log: the database against its own rules, every kept file against the"
                    + " size and SHA-256 it came with, recordings (.tkr) against their own"
                    + " checksums.",
            "",
            "One line for each problem, and exit code 1 if there is one. Repairs nothing: put what"
                    + " is damaged back from a backup. What 'tickover tidy' removed is no problem."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover verify",
            "  tickover verify --data /media/stick/tickover-2026-03-04 --json"
        })
final class VerifyVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    VerifyVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        LogCheck.Answer answer;
        terminal.progress("checking the database");
        try {
            answer =
                    LogCheck.run(
                            shared.log(),
                            RecordingDamage::of,
                            (done, total) ->
                                    terminal.progress("checking visit " + done + " of " + total));
        } finally {
            terminal.progressDone();
        }
        if (shared.json()) {
            terminal.json(json(answer));
        } else {
            print(answer);
        }
        return answer.problems().isEmpty() ? ExitCode.DONE : ExitCode.NO;
    }

    private void print(LogCheck.Answer answer) {
        answer.problems().forEach(p -> terminal.line(p.sentence() + "."));
        answer.remarks().forEach(terminal::line);
        for (LogCheck.Removed r : answer.removed()) {
            terminal.line(
                    Amounts.count(r.files(), "raw recording")
                            + " ("
                            + Amounts.bytes(r.bytes())
                            + ") removed by rule on "
                            + r.date()
                            + ": "
                            + r.rule()
                            + ".");
        }
        terminal.line(
                (answer.problems().isEmpty()
                                ? "The log is whole: "
                                : Amounts.count(answer.problems().size(), "problem") + " in ")
                        + Amounts.count(answer.visits(), "visit")
                        + ", "
                        + Amounts.count(answer.files(), "file")
                        + ", "
                        + Amounts.bytes(answer.bytes())
                        + " read.");
    }

    private static JsonObject json(LogCheck.Answer answer) {
        JsonObject o = new JsonObject();
        o.addProperty("whole", answer.problems().isEmpty());
        o.add(
                "problems",
                Json.array(
                        answer.problems(),
                        p -> {
                            JsonObject line = new JsonObject();
                            line.addProperty("kind", p.kind().name().toLowerCase(Locale.ROOT));
                            line.addProperty("place", p.place());
                            line.addProperty("text", p.sentence());
                            return line;
                        }));
        o.add("remarks", Json.words(answer.remarks()));
        o.add(
                "removedByRule",
                Json.array(
                        answer.removed(),
                        r -> {
                            JsonObject line = new JsonObject();
                            line.addProperty("date", r.date());
                            line.addProperty("rule", r.rule());
                            line.addProperty("files", r.files());
                            line.addProperty("bytes", r.bytes());
                            return line;
                        }));
        o.addProperty("visits", answer.visits());
        o.addProperty("files", answer.files());
        o.addProperty("bytes", answer.bytes());
        return o;
    }
}
