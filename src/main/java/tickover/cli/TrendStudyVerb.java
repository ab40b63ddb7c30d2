package tickover.cli;

import com.google.gson.JsonObject;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tickover.session.TrendStudy;

/** How soon changes are noticed, and how often there is none. */
@Command(
        name = "trend",
        description = {
            "Measures on simulated histories how soon a changed part is called and how often an"
                    + " unchanged one is, beside two plain rules of 6 dB on the same levels.",
            "",
            "The table is Markdown; docs/trend.md has the one of this version."
        },
        footerHeading = "%nExample:%n",
        footer = {"  tickover study trend --histories 200"})
final class TrendStudyVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Option(
            names = "--histories",
            paramLabel = "N",
            description = "Histories of each kind. Default: ${DEFAULT-VALUE}.")
    private int histories = 100;

    @Option(
            names = "--first",
            paramLabel = "SEED",
            description = "First seed. Default: ${DEFAULT-VALUE}.")
    private long first = 1_000_000;

    TrendStudyVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        if (histories < 1) {
            throw CliException.badInput("--histories " + histories + ": need at least 1");
        }
        List<TrendStudy.Line> lines = new ArrayList<>();
        for (TrendStudy.Scenario s : TrendStudy.scenarios()) {
            lines.add(
                    TrendStudy.judge(
                            s,
                            histories,
                            first,
                            done ->
                                    terminal.progress(
                                            s.name() + ", history " + done + " of " + histories)));
            terminal.progressDone();
        }
        if (shared.json()) {
            terminal.json(Json.array(lines, TrendStudyVerb::json));
        } else {
            terminal.line(
                    "| history | false calls per 100 visits: here | 6 dB above first | 6 dB above"
                            + " mean | found: here | above first | above mean | median delay,"
                            + " visits: here | above first | above mean |");
            terminal.line("|---|---|---|---|---|---|---|---|---|---|");
            lines.forEach(l -> terminal.line(row(l)));
        }
        return ExitCode.DONE;
    }

    private static String row(TrendStudy.Line l) {
        List<TrendStudy.Outcome> all = List.of(l.trend(), l.aboveFirst(), l.aboveMean());
        List<String> cells = new ArrayList<>();
        cells.add(l.scenario().name());
        all.forEach(o -> cells.add(Prose.fixed(o.falsePer100Visits(), 1)));
        boolean changes = all.stream().anyMatch(o -> o.found() > 0);
        all.forEach(o -> cells.add(changes ? Prose.percent(o.found()) : "–"));
        all.forEach(
                o ->
                        cells.add(
                                !changes
                                        ? "–"
                                        : o.medianDelayVisits() > 0
                                                ? Prose.fixed(o.medianDelayVisits(), 0)
                                                : "never"));
        return "| " + String.join(" | ", cells) + " |";
    }

    private static JsonObject json(TrendStudy.Line l) {
        JsonObject o = new JsonObject();
        o.addProperty("history", l.scenario().name());
        o.add("trend", json(l.trend()));
        o.add("aboveFirst", json(l.aboveFirst()));
        o.add("aboveMean", json(l.aboveMean()));
        return o;
    }

    private static JsonObject json(TrendStudy.Outcome outcome) {
        JsonObject o = new JsonObject();
        Json.put(o, "falsePer100Visits", outcome.falsePer100Visits());
        Json.put(o, "found", outcome.found());
        Json.put(o, "medianDelayVisits", outcome.medianDelayVisits());
        return o;
    }
}
