package tickover.console.model;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import tickover.drive.Face;
import tickover.drive.Role;
import tickover.drive.Vehicle;

/**
 * A drive while it is entered. Every edit can be taken back; what is typed is checked at once and
 * never thrown away.
 */
public final class DriveDraft {
    private static final int MOST_UNDO = 200;
    private static final String NEW_DIAMETER_MM = "70";

    private final ReadOnlyObjectWrapper<DriveState> state =
            new ReadOnlyObjectWrapper<>(DriveState.BLANK);
    private final ReadOnlyObjectWrapper<DriveOutcome> outcome =
            new ReadOnlyObjectWrapper<>(DriveReader.read(DriveState.BLANK));
    private final ReadOnlyBooleanWrapper changed = new ReadOnlyBooleanWrapper(false);
    private final StringProperty selected = new SimpleStringProperty("crank");
    private final Deque<DriveState> undo = new ArrayDeque<>();
    private final Deque<DriveState> redo = new ArrayDeque<>();
    private DriveState saved = DriveState.BLANK;

    /** Starts with an engine that has nothing but its crank pulley. */
    public DriveDraft() {}

    /** Starts anew with nothing but the crank. */
    public void clear() {
        take(DriveState.BLANK);
    }

    /**
     * Starts with a vehicle that is known.
     *
     * @param vehicle the vehicle
     */
    public void open(Vehicle vehicle) {
        take(DriveState.of(vehicle));
    }

    private void take(DriveState start) {
        undo.clear();
        redo.clear();
        saved = start;
        show(start);
        selected.set(start.pulleys().isEmpty() ? "" : start.pulleys().get(0).name());
    }

    /**
     * Copies engine and drive from a sister vehicle; name and description stay.
     *
     * @param sister the vehicle to copy from
     */
    public void copyFrom(Vehicle sister) {
        DriveState now = state.get();
        edit(s -> DriveState.of(sister).named(now.unit()).described(now.description()));
    }

    /**
     * Returns what was typed so far.
     *
     * @return observable, never null
     */
    public ReadOnlyObjectProperty<DriveState> state() {
        return state.getReadOnlyProperty();
    }

    /**
     * Returns what that comes to.
     *
     * @return observable, never null
     */
    public ReadOnlyObjectProperty<DriveOutcome> outcome() {
        return outcome.getReadOnlyProperty();
    }

    /**
     * Returns whether there is something to save.
     *
     * @return observable
     */
    public ReadOnlyBooleanProperty changed() {
        return changed.getReadOnlyProperty();
    }

    /**
     * Returns the name of the pulley that is being edited.
     *
     * @return observable, empty if none is
     */
    public StringProperty selected() {
        return selected;
    }

    /** Notes that what stands here was saved. */
    void markSaved() {
        saved = state.get();
        changed.set(false);
    }

    private void show(DriveState next) {
        state.set(next);
        outcome.set(DriveReader.read(next));
        changed.set(!next.equals(saved));
    }

    private void edit(UnaryOperator<DriveState> change) {
        DriveState before = state.get();
        DriveState after = change.apply(before);
        if (after.equals(before)) {
            return;
        }
        undo.push(before);
        if (undo.size() > MOST_UNDO) {
            undo.removeLast();
        }
        redo.clear();
        show(after);
    }

    /** Takes the last edit back. */
    public void undo() {
        if (!undo.isEmpty()) {
            redo.push(state.get());
            show(undo.pop());
        }
    }

    /** Does again what was taken back. */
    public void redo() {
        if (!redo.isEmpty()) {
            undo.push(state.get());
            show(redo.pop());
        }
    }

    /**
     * Names the vehicle.
     *
     * @param unit how the fleet calls it
     */
    public void name(String unit) {
        edit(s -> s.named(unit));
    }

    /**
     * Describes the vehicle.
     *
     * @param description free text
     */
    public void describe(String description) {
        edit(s -> s.described(description));
    }

    /**
     * Describes the engine, as typed.
     *
     * @param cylinders how many
     * @param strokes 4 or 2
     * @param idleRpm idle speed, rpm, or empty
     * @param firingOrder cylinders with commas, or empty
     */
    public void engine(String cylinders, String strokes, String idleRpm, String firingOrder) {
        edit(s -> s.engine(cylinders, strokes, idleRpm, firingOrder));
    }

    /**
     * Adds a pulley and selects it.
     *
     * @param xMm centre to the right, mm
     * @param yMm centre upwards, mm
     * @return its name
     */
    public String add(double xMm, double yMm) {
        Set<String> names =
                state.get().pulleys().stream().map(PulleyRow::name).collect(Collectors.toSet());
        String name = "idler";
        for (int i = 2; names.contains(name); i++) {
            name = "idler-" + i;
        }
        PulleyRow row =
                new PulleyRow(
                                name,
                                Role.IDLER,
                                NEW_DIAMETER_MM,
                                Face.FLAT,
                                "",
                                "",
                                "?",
                                Role.IDLER.usualTurningRing(),
                                "")
                        .at(xMm, yMm);
        edit(
                s -> {
                    List<PulleyRow> rows = new ArrayList<>(s.pulleys());
                    rows.add(row);
                    return s.with(rows, s.belts());
                });
        selected.set(name);
        return name;
    }

    /**
     * Changes a pulley. Belts follow a new name.
     *
     * @param name the pulley's name so far
     * @param row what it is now
     */
    public void change(String name, PulleyRow row) {
        Objects.requireNonNull(row, "row");
        edit(
                s -> {
                    List<PulleyRow> rows = new ArrayList<>(s.pulleys());
                    int at = indexOf(rows, name);
                    if (at < 0) {
                        return s;
                    }
                    rows.set(at, row);
                    boolean renamed = !row.name().equals(name) && !row.name().isBlank();
                    return s.with(
                            rows,
                            renamed
                                    ? s.belts().stream()
                                            .map(b -> b.renamed(name, row.name().strip()))
                                            .toList()
                                    : s.belts());
                });
        if (selected.get().equals(name)) {
            selected.set(row.name());
        }
    }

    private static int indexOf(List<PulleyRow> rows, String name) {
        for (int i = 0; i < rows.size(); i++) {
            if (rows.get(i).name().equals(name)) {
                return i;
            }
        }
        return -1;
    }

    /**
     * Moves a pulley.
     *
     * @param name its name
     * @param xMm centre to the right, mm
     * @param yMm centre upwards, mm
     */
    public void move(String name, double xMm, double yMm) {
        state.get().pulleys().stream()
                .filter(r -> r.name().equals(name))
                .findFirst()
                .ifPresent(row -> change(name, row.at(xMm, yMm)));
    }

    /**
     * Removes a pulley; belts no longer touch it.
     *
     * @param name its name
     */
    public void remove(String name) {
        edit(
                s ->
                        s.with(
                                s.pulleys().stream().filter(r -> !r.name().equals(name)).toList(),
                                s.belts().stream().map(b -> b.without(name)).toList()));
        if (selected.get().equals(name)) {
            List<PulleyRow> left = state.get().pulleys();
            selected.set(left.isEmpty() ? "" : left.get(left.size() - 1).name());
        }
    }

    /**
     * Changes a belt.
     *
     * @param index which, from 0
     * @param row what it is now
     */
    public void changeBelt(int index, BeltRow row) {
        edit(
                s -> {
                    List<BeltRow> rows = new ArrayList<>(s.belts());
                    rows.set(index, row);
                    return s.with(s.pulleys(), rows);
                });
    }

    /**
     * Adds a belt.
     *
     * @return its index
     */
    public int addBelt() {
        edit(
                s -> {
                    List<BeltRow> rows = new ArrayList<>(s.belts());
                    rows.add(new BeltRow("belt-" + (rows.size() + 1), "", ""));
                    return s.with(s.pulleys(), rows);
                });
        return state.get().belts().size() - 1;
    }

    /**
     * Removes a belt.
     *
     * @param index which, from 0
     */
    public void removeBelt(int index) {
        edit(
                s -> {
                    List<BeltRow> rows = new ArrayList<>(s.belts());
                    rows.remove(index);
                    return s.with(s.pulleys(), rows);
                });
    }

    /**
     * Leads a belt on to a pulley, or takes it off the pulley if it touches it already.
     *
     * @param index which belt, from 0
     * @param pulley where to
     */
    public void route(int index, String pulley) {
        BeltRow belt = state.get().belts().get(index);
        List<String> stops = new ArrayList<>(belt.stops());
        if (!stops.remove(pulley)) {
            stops.add(pulley);
        }
        changeBelt(index, belt.through(stops));
    }
}
