package tickover.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import tickover.diagnose.Candidate;
import tickover.diagnose.PartChange;
import tickover.diagnose.VehicleTrend;
import tickover.report.Wording;
import tickover.sim.Truth;
import tickover.store.Log;

/** What the demo says, in the order of the job. */
final class DemoStory {
    private final Path data;
    private final List<DemoVerb.Told> told;
    private final List<PartChange> changes;
    private final List<Path> files;

    DemoStory(Path data, List<DemoVerb.Told> told, List<PartChange> changes, List<Path> files) {
        this.data = data;
        this.told = told;
        this.changes = changes;
        this.files = files;
    }

    List<String> lines(Visits visits) {
        List<String> lines = new ArrayList<>();
        lines.addAll(
                Prose.fold(
                        "",
                        "ML-07 is a mobile library of a county's vehicle pool. Three visits were"
                                + " recorded (by a simulator), imported and analysed."));
        head(lines, "1. Last year's service");
        brief(lines, told.get(0));
        head(lines, "2. Today's complaint");
        lines.addAll(FindingsText.lines(told.get(1).handle(), told.get(1).result().findings()));
        lines.add("");
        lines.addAll(truth(told.get(1)));
        head(lines, "3. After the repair");
        brief(lines, told.get(2));
        lines.add("");
        lines.add("Levels after the repair against today's complaint, like with like:");
        lines.addAll(
                changes.isEmpty()
                        ? List.of("nothing can be compared")
                        : ChangeTable.lines(changes));
        trend(lines, visits);
        head(lines, "4. What to look at, and what to try");
        files.forEach(f -> lines.add("  " + f));
        lines.add("  the demo's log: " + data);
        lines.add("");
        commands(lines);
        return lines;
    }

    private static void head(List<String> lines, String title) {
        lines.add("");
        lines.add(title);
        lines.add("=".repeat(title.length()));
    }

    private static void brief(List<String> lines, DemoVerb.Told visit) {
        lines.add(visit.handle().title());
        lines.addAll(Prose.fold("", Wording.headline(visit.result().findings())));
        lines.addAll(Prose.fold("", Wording.howSure(visit.result().findings())));
    }

    /** The demo is simulated, so it can say whether it was right. */
    private static List<String> truth(DemoVerb.Told visit) {
        Truth truth = visit.simulated().truth();
        boolean right = visit.result().findings().first().component().equals(truth.component());
        return Prose.fold(
                "",
                "What the simulator had put in: "
                        + Wording.component(truth.component())
                        + ", "
                        + truth.fault().word().replace('-', ' ')
                        + ". The first suspect "
                        + (right ? "is right." : "is wrong."));
    }

    private void trend(List<String> lines, Visits visits) {
        String part = part();
        VehicleTrend vehicle;
        try (Log log = visits.openLog()) {
            vehicle = log.history().trend(unit());
        }
        if (!vehicle.of(part).isEmpty()) {
            lines.add("");
            lines.addAll(new TrendText(unit(), vehicle, part, 0).lines(List.of()));
        }
    }

    private String unit() {
        return told.get(1).handle().visit().vehicle().unit();
    }

    /** The part that the complaint's findings accuse, or the first that was looked at. */
    private String part() {
        return told.get(1).result().findings().candidates().stream()
                .map(Candidate::component)
                .filter(c -> !c.equals(Candidate.NONE))
                .findFirst()
                .orElse("idler");
    }

    private void commands(List<String> lines) {
        String program = System.getProperty("tickover.command", "tickover");
        String log = " --data " + ShellWord.of(data.toString());
        String today = ShellWord.of(told.get(1).folder().toString());
        String after = ShellWord.of(told.get(2).folder().toString());
        lines.add("  " + program + " visits" + log);
        lines.add("  " + program + " findings " + today);
        lines.add("  " + program + " compare " + today + " " + after);
        lines.add("  " + program + " fleet" + log);
        lines.add("  " + program + " trend " + unit() + " " + ShellWord.of(part()) + log);
        lines.add(
                "  "
                        + program
                        + " orders "
                        + ShellWord.of(told.get(1).folder() + "#c02")
                        + " --orders 1,2,4");
        lines.add(
                "  "
                        + program
                        + " drive "
                        + ShellWord.of(told.get(1).folder().resolve("vehicle.toml").toString()));
    }
}
