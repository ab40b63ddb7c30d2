package tickover.console.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.TreeSet;
import java.util.UUID;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import tickover.diagnose.BeforeAfter;
import tickover.diagnose.Candidate;
import tickover.diagnose.PartChange;
import tickover.diagnose.RepairProof;
import tickover.diagnose.Verdict;
import tickover.report.RepairWords;
import tickover.report.Wording;
import tickover.store.KeptVisit;

/**
 * Two visits of the chosen vehicle against each other: how every part changed, whether the repair
 * is proven, and what is new.
 */
public final class CompareModel {
    /** Stands for no repair among the parts to choose from. */
    public static final String NO_REPAIR = "nothing was repaired";

    private final ConsoleModel console;
    private final ReadOnlyObjectWrapper<CompareState> state =
            new ReadOnlyObjectWrapper<>(CompareState.EMPTY);
    private final ReadOnlyBooleanWrapper busy = new ReadOnlyBooleanWrapper(false);
    private final ObservableList<KeptVisit> laters = FXCollections.observableArrayList();
    private final ObservableList<KeptVisit> earliers = FXCollections.observableArrayList();
    private final ObservableList<String> parts = FXCollections.observableArrayList(NO_REPAIR);
    private final List<KeptVisit> all = new ArrayList<>();
    private final ReadOnlyObjectWrapper<KeptVisit> after = new ReadOnlyObjectWrapper<>();
    private final ReadOnlyObjectWrapper<KeptVisit> before = new ReadOnlyObjectWrapper<>();
    private String repaired = "";
    private Pair shown;

    /** Two visits and what they say, and the part whose repair is marked between them, if any. */
    private record Pair(KeptStory before, KeptStory after, List<String> marked) {}

    CompareModel(ConsoleModel console) {
        this.console = console;
    }

    /**
     * Returns what is shown.
     *
     * @return observable, never null
     */
    public ReadOnlyObjectProperty<CompareState> state() {
        return state.getReadOnlyProperty();
    }

    /**
     * Returns whether visits are being read or analysed.
     *
     * @return observable
     */
    public ReadOnlyBooleanProperty busy() {
        return busy.getReadOnlyProperty();
    }

    /**
     * Returns the visits that have an earlier one.
     *
     * @return observable, newest first
     */
    public ObservableList<KeptVisit> laters() {
        return laters;
    }

    /**
     * Returns the visits before the later one.
     *
     * @return observable, newest first
     */
    public ObservableList<KeptVisit> earliers() {
        return earliers;
    }

    /**
     * Returns the later visit.
     *
     * @return observable; null inside if there are not two
     */
    public ReadOnlyObjectProperty<KeptVisit> after() {
        return after.getReadOnlyProperty();
    }

    /**
     * Returns the earlier visit.
     *
     * @return observable; null inside if there are not two
     */
    public ReadOnlyObjectProperty<KeptVisit> before() {
        return before.getReadOnlyProperty();
    }

    /**
     * Returns which parts could have been repaired in between.
     *
     * @return observable; {@link #NO_REPAIR} first
     */
    public ObservableList<String> parts() {
        return parts;
    }

    /** Reads the vehicle's visits and holds the newest against the one before it. */
    void load() {
        String unit = console.unit().get();
        busy.set(true);
        console.errands()
                .send(() -> KeptStory.newestFirst(console, unit), this::offer, this::failed);
    }

    private void offer(List<KeptVisit> found) {
        boolean same = found.equals(all) && shown != null;
        if (same) {
            busy.set(false);
            return;
        }
        all.clear();
        all.addAll(found);
        laters.setAll(found.isEmpty() ? List.of() : found.subList(0, found.size() - 1));
        if (laters.isEmpty()) {
            busy.set(false);
            shown = null;
            after.set(null);
            before.set(null);
            earliers.clear();
            parts.setAll(NO_REPAIR);
            state.set(CompareState.EMPTY);
            return;
        }
        later(laters.get(0).id());
    }

    /**
     * Chooses the later visit; it is held against the one before it.
     *
     * @param id one of {@link #laters}
     */
    public void later(UUID id) {
        for (int i = 0; i + 1 < all.size(); i++) {
            if (all.get(i).id().equals(id)) {
                after.set(all.get(i));
                before.set(null);
                earliers.setAll(all.subList(i + 1, all.size()));
                earlier(earliers.get(0).id());
                return;
            }
        }
    }

    /**
     * Chooses the earlier visit.
     *
     * @param id one of {@link #earliers}
     */
    public void earlier(UUID id) {
        Optional<KeptVisit> chosen = earliers.stream().filter(v -> v.id().equals(id)).findFirst();
        if (chosen.isEmpty()) {
            return;
        }
        before.set(chosen.get());
        UUID later = after.get().id();
        busy.set(true);
        console.say("Looking at what the captures of both visits say…");
        console.errands()
                .send(
                        () -> {
                            KeptStory was = KeptStory.of(console, id);
                            KeptStory is = KeptStory.of(console, later);
                            return new Pair(was, is, marked(was, is));
                        },
                        this::show,
                        this::failed);
    }

    private void failed(String why) {
        busy.set(false);
        console.say(why);
    }

    private void show(Pair pair) {
        busy.set(false);
        console.say("");
        shown = pair;
        TreeSet<String> known = new TreeSet<>();
        pair.before().result().levels().forEach(l -> known.add(l.part()));
        pair.before().result().findings().candidates().forEach(c -> known.add(c.component()));
        known.remove(Candidate.NONE);
        known.addAll(pair.marked());
        List<String> offered = new ArrayList<>(List.of(NO_REPAIR));
        offered.addAll(known);
        String accused =
                pair.before().result().findings().verdict() == Verdict.COMPONENT
                        ? pair.before().result().findings().first().component()
                        : "";
        repaired = pair.marked().isEmpty() ? accused : pair.marked().get(0);
        if (!offered.equals(parts)) {
            parts.setAll(offered);
        }
        publish();
    }

    /**
     * Says which part was repaired in between.
     *
     * @param part one of {@link #parts}
     */
    public void repaired(String part) {
        String next = part.equals(NO_REPAIR) ? "" : part;
        if (!next.equals(repaired) && shown != null) {
            repaired = next;
            publish();
        }
    }

    /**
     * Says what the page has as repaired between two visits.
     *
     * @param earlier the earlier visit
     * @param later the later one
     * @return the part, or nothing where none was; empty if the page holds other visits
     */
    Optional<String> repairedIn(UUID earlier, UUID later) {
        return Optional.ofNullable(shown)
                .filter(p -> p.before().visit().id().equals(earlier))
                .filter(p -> p.after().visit().id().equals(later))
                .map(p -> repaired);
    }

    private List<String> marked(KeptStory was, KeptStory is) {
        return KeptStory.repairedBetween(console, was.visit(), is.visit()).stream().toList();
    }

    private void publish() {
        state.set(words(shown, repaired));
    }

    private static CompareState words(Pair pair, String repaired) {
        String title =
                FindingsModel.WHEN.format(pair.before().visit().date())
                        + " → "
                        + FindingsModel.WHEN.format(pair.after().visit().date());
        List<PartChange> changes =
                BeforeAfter.visits(pair.before().result(), pair.after().result());
        List<String> unlike = RepairProof.unlike(pair.before().result(), pair.after().result());
        if (repaired.isEmpty()) {
            List<CompareState.Row> rows =
                    changes.stream().map(c -> row(c, change(c), mark(c))).toList();
            return new CompareState(title, headline(changes), "", List.of(), "", rows, unlike);
        }
        RepairProof proof = RepairProof.of(pair.before().result(), pair.after().result(), repaired);
        List<CompareState.Row> rows = new ArrayList<>();
        for (PartChange c : proof.changes()) {
            rows.add(c.part().equals(repaired) ? row(c, change(c), own(proof)) : other(proof, c));
        }
        return new CompareState(
                title,
                RepairWords.headline(proof),
                proof.text(),
                proof.newFaults().stream().map(RepairProof.NewFault::text).toList(),
                repaired,
                rows,
                proof.unlike());
    }

    private static CompareState.Mark own(RepairProof proof) {
        return switch (proof.state()) {
            case GONE, QUIETER -> CompareState.Mark.BETTER;
            case LOUDER -> CompareState.Mark.WORSE;
            case UNPROVEN, NOT_COMPARABLE -> CompareState.Mark.NONE;
        };
    }

    /** A part that was not repaired: what counts is whether it changed against all of them. */
    private static CompareState.Row other(RepairProof proof, PartChange c) {
        RepairProof.Other judged =
                proof.others().stream()
                        .filter(o -> o.change().part().equals(c.part()))
                        .findFirst()
                        .orElseThrow();
        boolean isNew = proof.newFaults().stream().anyMatch(n -> n.part().equals(c.part()));
        return row(
                c,
                judged.text(),
                isNew || (judged.changed() && c.changeDb() > 0)
                        ? CompareState.Mark.WORSE
                        : CompareState.Mark.NONE);
    }

    private static CompareState.Mark mark(PartChange c) {
        if (!c.isClear()) {
            return CompareState.Mark.NONE;
        }
        return c.changeDb() < 0 ? CompareState.Mark.BETTER : CompareState.Mark.WORSE;
    }

    private static String change(PartChange c) {
        return Wording.change(c);
    }

    private static CompareState.Row row(PartChange c, String words, CompareState.Mark mark) {
        return new CompareState.Row(
                c.part(),
                words,
                Numbers.three(c.beforeRmsMps2()) + " → " + Numbers.three(c.afterRmsMps2()),
                String.format(
                        Locale.ROOT,
                        "%+.1f dB (%+.1f to %+.1f)",
                        c.changeDb(),
                        c.lowDb(),
                        c.highDb()),
                RepairWords.luck(c),
                String.format(Locale.ROOT, "%+.1f dB", c.changeDb()),
                mark);
    }

    private static String headline(List<PartChange> changes) {
        if (changes.isEmpty()) {
            return "Nothing can be compared.";
        }
        List<String> clear =
                changes.stream()
                        .filter(PartChange::isClear)
                        .map(c -> Wording.component(c.part()) + " " + Wording.change(c))
                        .toList();
        return clear.isEmpty()
                ? "No part changed by more than scatter explains."
                : "Changed: " + String.join(", ", clear) + ".";
    }

    /** Writes the report of the later visit, held against the earlier one, as one page. */
    public void report() {
        if (shown == null) {
            console.say("There is nothing to report yet.");
            return;
        }
        Pair pair = shown;
        String part = repaired;
        busy.set(true);
        console.errands()
                .send(
                        () ->
                                ReportFiles.write(
                                        console,
                                        pair.after(),
                                        List.of(new ReportFiles.Held(pair.before(), part))),
                        kept -> {
                            busy.set(false);
                            console.say(kept);
                        },
                        this::failed);
    }
}
