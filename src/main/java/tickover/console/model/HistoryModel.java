package tickover.console.model;

import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import tickover.diagnose.Attention;
import tickover.diagnose.LevelSeries;
import tickover.diagnose.RepairMark;
import tickover.diagnose.VehicleTrend;
import tickover.drive.PartWords;
import tickover.report.TrendWords;
import tickover.store.FleetLine;
import tickover.store.History;
import tickover.store.Log;
import tickover.store.Note;

/** How the fleet stands, what each part of a vehicle did over its visits, notes and repairs. */
public final class HistoryModel {
    private static final DateTimeFormatter DAY =
            DateTimeFormatter.ofPattern("d MMM uuuu", Locale.ENGLISH);

    private final ConsoleModel console;
    private final ReadOnlyObjectWrapper<HistoryState> state =
            new ReadOnlyObjectWrapper<>(HistoryState.EMPTY);
    private final ReadOnlyBooleanWrapper busy = new ReadOnlyBooleanWrapper(false);

    HistoryModel(ConsoleModel console) {
        this.console = console;
    }

    /**
     * Returns what is shown.
     *
     * @return observable, never null
     */
    public ReadOnlyObjectProperty<HistoryState> state() {
        return state.getReadOnlyProperty();
    }

    /**
     * Returns whether the log is being read.
     *
     * @return observable
     */
    public ReadOnlyBooleanProperty busy() {
        return busy.getReadOnlyProperty();
    }

    /** Reads how the fleet stands, and shows the chosen vehicle or the one that is most urgent. */
    public void load() {
        String chosen = console.unit().get();
        read(
                () ->
                        console.fromLog(
                                log -> {
                                    log.history().refresh((done, total) -> {});
                                    List<HistoryState.Standing> fleet = fleet(log);
                                    String unit =
                                            fleet.stream()
                                                    .map(HistoryState.Standing::unit)
                                                    .filter(chosen::equals)
                                                    .findFirst()
                                                    .orElse(
                                                            fleet.isEmpty()
                                                                    ? ""
                                                                    : fleet.get(0).unit());
                                    return of(log, fleet, unit);
                                }),
                "");
    }

    /**
     * Shows another vehicle.
     *
     * @param unit how the fleet calls it
     */
    public void show(String unit) {
        if (!unit.equals(state.get().unit())) {
            read(() -> console.fromLog(log -> of(log, state.get().fleet(), unit)), "");
        }
    }

    /**
     * Draws another series of the vehicle.
     *
     * @param index 0-based
     */
    public void pick(int index) {
        HistoryState now = state.get();
        if (index >= 0 && index < now.series().size() && index != now.picked()) {
            state.set(now.withPicked(index));
        }
    }

    /**
     * Keeps a note about the vehicle that is shown.
     *
     * @param part which part it is about; empty for the whole vehicle
     * @param text what is to be remembered
     * @param at when it was so
     */
    public void note(String part, String text, LocalDateTime at) {
        String unit = state.get().unit();
        if (unit.isEmpty() || text.isBlank()) {
            console.say("Type first what is to be remembered.");
            return;
        }
        change(
                history ->
                        history.addNote(
                                new Note(UUID.randomUUID(), unit, at, part, "", text.strip())),
                "The note is kept.");
    }

    /** Keeps a note about a vehicle, from another screen. */
    void keep(String unit, String part, String text) {
        LocalDateTime at = LocalDateTime.now(ZoneId.systemDefault());
        Note note = new Note(UUID.randomUUID(), unit, at, part, "", text);
        console.errands()
                .send(
                        () ->
                                console.fromLog(
                                        log -> {
                                            log.history().addNote(note);
                                            return unit;
                                        }),
                        kept -> console.say("Noted with " + kept + "; it stands under History."),
                        console::say);
    }

    /**
     * Marks a repair of the vehicle that is shown: baselines of the part begin anew after it.
     *
     * @param part which part was repaired; empty for the whole front
     * @param text what was done
     * @param at when
     */
    public void repair(String part, String text, LocalDateTime at) {
        String unit = state.get().unit();
        if (unit.isEmpty() || text.isBlank()) {
            console.say("Type first what was done.");
            return;
        }
        change(
                history -> history.addRepair(unit, at, part, text.strip()),
                "The repair is marked; "
                        + (part.isEmpty() ? "every part" : PartWords.the(part))
                        + " begins a new baseline.");
    }

    private void change(Consumer<History> change, String done) {
        String unit = state.get().unit();
        read(
                () ->
                        console.fromLog(
                                log -> {
                                    change.accept(log.history());
                                    log.history().refresh((made, total) -> {});
                                    return of(log, fleet(log), unit);
                                }),
                done);
    }

    private void read(Callable<HistoryState> work, String done) {
        busy.set(true);
        console.errands()
                .send(
                        work,
                        next -> {
                            busy.set(false);
                            console.say(done);
                            state.set(next);
                        },
                        why -> {
                            busy.set(false);
                            console.say(why);
                        });
    }

    private static List<HistoryState.Standing> fleet(Log log) {
        return log.history().fleet().stream().map(HistoryModel::standing).toList();
    }

    private static HistoryState.Standing standing(FleetLine line) {
        String visits = line.visits() == 1 ? "1 visit" : line.visits() + " visits";
        return new HistoryState.Standing(
                line.unit(),
                line.urgency(),
                line.lastSeen().map(d -> "seen " + DAY.format(d) + ", ").orElse("") + visits,
                line.reasons().stream()
                        .map(FleetLine.Reason::attention)
                        .map(Attention::sentence)
                        .toList());
    }

    private static HistoryState of(Log log, List<HistoryState.Standing> fleet, String unit) {
        if (unit.isEmpty()) {
            return HistoryState.EMPTY;
        }
        VehicleTrend trend = log.history().trend(unit);
        List<HistoryState.Series> series =
                trend.series().stream()
                        .sorted(Comparator.comparing(j -> !j.needsAttention()))
                        .map(j -> series(j, trend))
                        .toList();
        return new HistoryState(fleet, unit, series, 0, marks(log, unit));
    }

    private static HistoryState.Series series(VehicleTrend.Judged judged, VehicleTrend vehicle) {
        LevelSeries.Place place = judged.trend().series().place();
        List<String> sentences = new ArrayList<>();
        sentences.add(TrendWords.newest(judged.trend()));
        TrendWords.verdict(judged, vehicle)
                .ifPresent(v -> sentences.add(judged.needsAttention() ? 0 : 1, v));
        sentences.add(TrendWords.rate(judged.trend()));
        return new HistoryState.Series(
                PartWords.plain(place.part()) + " " + place.words(), judged, sentences);
    }

    private record Mark(LocalDateTime at, String sentence) {}

    private static List<String> marks(Log log, String unit) {
        List<Mark> marks = new ArrayList<>();
        for (RepairMark r : log.history().repairs(unit)) {
            String what = r.part().isEmpty() ? "repair" : "repair of " + PartWords.the(r.part());
            marks.add(new Mark(r.at(), what + (r.text().isBlank() ? "" : ": " + r.text())));
        }
        for (Note n : log.history().notes(unit)) {
            marks.add(
                    new Mark(
                            n.at(),
                            (n.part().isEmpty() ? "" : PartWords.plain(n.part()) + ": ")
                                    + n.text()));
        }
        return marks.stream()
                .sorted(Comparator.comparing(Mark::at))
                .map(m -> DAY.format(m.at()) + ", " + m.sentence())
                .toList();
    }
}
