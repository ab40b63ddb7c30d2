package tickover.console.model;

import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import tickover.diagnose.BeforeAfter;
import tickover.diagnose.Candidate;
import tickover.diagnose.Findings;
import tickover.diagnose.NextTest;
import tickover.diagnose.PartChange;
import tickover.diagnose.VisitResult;
import tickover.drive.PartWords;
import tickover.report.Caution;
import tickover.report.Wording;
import tickover.store.KeptVisit;
import tickover.store.Visit;

/** What the captures of a visit say, and what changed since an earlier one. */
public final class FindingsModel {
    /** When a visit was. */
    static final DateTimeFormatter WHEN =
            DateTimeFormatter.ofPattern("d MMM uuuu, HH:mm", Locale.ENGLISH);

    private final ConsoleModel console;
    private final ReadOnlyObjectWrapper<FindingsState> state =
            new ReadOnlyObjectWrapper<>(FindingsState.EMPTY);
    private final ReadOnlyBooleanWrapper busy = new ReadOnlyBooleanWrapper(false);
    private final ObservableList<KeptVisit> visits = FXCollections.observableArrayList();
    private Told shown;

    /** A visit and what it says, and the same of the visit before, if there is one. */
    private record Told(KeptStory now, List<KeptStory> before) {
        Visit visit() {
            return now.visit();
        }

        VisitResult result() {
            return now.result();
        }
    }

    FindingsModel(ConsoleModel console) {
        this.console = console;
    }

    /**
     * Returns what is shown.
     *
     * @return observable, never null
     */
    public ReadOnlyObjectProperty<FindingsState> state() {
        return state.getReadOnlyProperty();
    }

    /**
     * Returns whether a visit is being analysed.
     *
     * @return observable
     */
    public ReadOnlyBooleanProperty busy() {
        return busy.getReadOnlyProperty();
    }

    /**
     * Returns the vehicle's visits.
     *
     * @return observable, newest first
     */
    public ObservableList<KeptVisit> visits() {
        return visits;
    }

    /**
     * Says of a visit when it was and what it was about.
     *
     * @param visit the visit
     * @return a few words
     */
    public static String words(KeptVisit visit) {
        String about = visit.complaint().isBlank() ? "" : ": " + visit.complaint();
        return WHEN.format(visit.date()) + about;
    }

    /**
     * Says whether a visit is the one that is shown.
     *
     * @param visit the visit
     * @return true if it is
     */
    public boolean isShown(KeptVisit visit) {
        return shown != null && shown.visit().id().equals(visit.id());
    }

    /** Reads the vehicle's visits and shows the newest. */
    public void load() {
        String unit = console.unit().get();
        console.errands()
                .send(
                        () -> KeptStory.newestFirst(console, unit),
                        all -> {
                            visits.setAll(all);
                            if (all.isEmpty()) {
                                state.set(FindingsState.EMPTY);
                                console.say("There is no visit of " + unit + " yet.");
                            } else {
                                show(all.get(0).id());
                            }
                        },
                        console::say);
    }

    /**
     * Shows what a visit says; it is analysed first if this version of the program has not done so.
     *
     * @param id the visit
     */
    public void show(UUID id) {
        busy.set(true);
        console.say("Looking at what the captures say…");
        Optional<KeptVisit> before = before(id);
        console.errands()
                .send(
                        () -> {
                            KeptStory now = KeptStory.of(console, id);
                            List<KeptStory> earlier = new ArrayList<>();
                            if (before.isPresent()) {
                                earlier.add(KeptStory.of(console, before.get().id()));
                            }
                            return new Told(now, earlier);
                        },
                        told -> {
                            busy.set(false);
                            console.say("");
                            show(told);
                        },
                        why -> {
                            busy.set(false);
                            console.say(why);
                        });
    }

    private Optional<KeptVisit> before(UUID id) {
        for (int i = 0; i + 1 < visits.size(); i++) {
            if (visits.get(i).id().equals(id)) {
                return Optional.of(visits.get(i + 1));
            }
        }
        return Optional.empty();
    }

    /** Shows what a round that is under way says so far. */
    void live(Visit visit, VisitResult result) {
        show(new Told(new KeptStory(visit, result), List.of()));
    }

    private void show(Told told) {
        shown = told;
        List<String> changes = new ArrayList<>();
        for (KeptStory before : told.before()) {
            for (PartChange change : BeforeAfter.visits(before.result(), told.result())) {
                changes.add(change(change));
            }
        }
        state.set(
                words(
                        told.visit().vehicle().unit() + ", " + WHEN.format(told.visit().date()),
                        told.result().findings(),
                        changes));
    }

    private static String change(PartChange change) {
        return String.format(
                Locale.ROOT,
                "%s: %s (%+.1f dB, between %+.1f and %+.1f dB).",
                PartWords.start(change.part()),
                Wording.change(change),
                change.changeDb(),
                change.lowDb(),
                change.highDb());
    }

    /** Puts findings into words. */
    static FindingsState words(String title, Findings findings, List<String> changes) {
        return new FindingsState(
                title,
                Wording.headline(findings),
                Wording.howSure(findings),
                findings.candidates().stream().map(FindingsModel::suspect).toList(),
                findings.nextTests().stream().map(FindingsModel::test).toList(),
                findings.quality().stream()
                        .map(q -> (q.capture().isEmpty() ? "" : q.capture() + ": ") + q.text())
                        .toList(),
                changes);
    }

    private static FindingsState.Suspect suspect(Candidate c) {
        return new FindingsState.Suspect(
                c.component(),
                Wording.component(c.component()),
                c.probability(),
                Wording.percent(c.probability()),
                Wording.fault(c.fault()),
                c.evidence().stream()
                        .map(e -> new FindingsState.Reason(e.strengthDb() >= 0, e.text()))
                        .toList());
    }

    private static FindingsState.Test test(NextTest t) {
        List<String> cautions = new ArrayList<>();
        for (Caution caution : Caution.forTest(t.kind())) {
            cautions.addAll(caution.sentences());
        }
        cautions.add(Caution.comesFirst());
        return new FindingsState.Test(
                String.format(Locale.ROOT, "about %.0f min", t.minutes()), t.text(), cautions);
    }

    /**
     * Says how likely it is that a part makes the noise.
     *
     * @param part its name
     * @return one sentence
     */
    public String chanceOf(String part) {
        return state.get().suspects().stream()
                .filter(s -> s.component().equals(part))
                .findFirst()
                .map(s -> s.percent() + " for " + s.name() + ": " + s.fault() + ".")
                .orElse("Nothing is said of " + PartWords.the(part) + ".");
    }

    /**
     * Writes the report of the visit that is shown. After a repair, marked in the log or chosen in
     * Before and after, it says first whether that is proven.
     */
    public void report() {
        if (shown == null) {
            console.say("There is nothing to report yet.");
            return;
        }
        Told told = shown;
        // What Before and after says of the same two visits holds here too.
        List<Optional<String>> chosen =
                told.before().stream()
                        .map(b -> console.compare().repairedIn(b.visit().id(), told.visit().id()))
                        .toList();
        busy.set(true);
        console.errands()
                .send(
                        () -> {
                            List<ReportFiles.Held> held = new ArrayList<>();
                            for (int i = 0; i < told.before().size(); i++) {
                                KeptStory before = told.before().get(i);
                                String marked =
                                        KeptStory.repairedBetween(
                                                        console, before.visit(), told.visit())
                                                .orElse("");
                                held.add(
                                        new ReportFiles.Held(before, chosen.get(i).orElse(marked)));
                            }
                            return ReportFiles.write(console, told.now(), held);
                        },
                        kept -> {
                            busy.set(false);
                            console.say(kept);
                        },
                        why -> {
                            busy.set(false);
                            console.say(why);
                        });
    }
}
