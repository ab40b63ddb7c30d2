package tickover.console.model;

import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import javafx.collections.transformation.FilteredList;
import tickover.drive.Vehicle;
import tickover.sim.SimulatedVan;
import tickover.store.KeptVehicle;
import tickover.store.Log;

/** The vehicles of the log, and which of them is meant. */
public final class VehicleModel {
    private static final DateTimeFormatter DAY =
            DateTimeFormatter.ofPattern("d MMM uuuu", Locale.ENGLISH);

    private final ConsoleModel console;
    private final ObservableList<KeptVehicle> all = FXCollections.observableArrayList();
    private final FilteredList<KeptVehicle> shown = new FilteredList<>(all);
    private final StringProperty search = new SimpleStringProperty("");
    private final LeftRounds left;

    VehicleModel(ConsoleModel console) {
        this.console = console;
        this.left = new LeftRounds(console);
        search.addListener(
                (o, before, now) ->
                        shown.setPredicate(
                                v ->
                                        v.unit()
                                                .toLowerCase(Locale.ROOT)
                                                .contains(now.strip().toLowerCase(Locale.ROOT))));
    }

    /** Reads the list anew, and looks for rounds that were left open. */
    public void load() {
        left.load();
        console.errands().send(() -> console.fromLog(Log::vehicles), all::setAll, console::say);
    }

    /**
     * Returns the vehicles that match the search.
     *
     * @return observable, by unit
     */
    public ObservableList<KeptVehicle> shown() {
        return shown;
    }

    /**
     * Returns all vehicles.
     *
     * @return observable, by unit
     */
    public ObservableList<KeptVehicle> all() {
        return all;
    }

    /**
     * Returns the rounds whose recordings are not in the log yet.
     *
     * @return their model
     */
    public LeftRounds left() {
        return left;
    }

    /**
     * Returns what is searched for.
     *
     * @return part of a name, in any case
     */
    public StringProperty search() {
        return search;
    }

    /**
     * Says of a vehicle when it was last seen.
     *
     * @param vehicle the vehicle
     * @return a few words
     */
    public static String seen(KeptVehicle vehicle) {
        String visits =
                switch (vehicle.visits()) {
                    case 0 -> "no visit yet";
                    case 1 -> "1 visit";
                    default -> vehicle.visits() + " visits";
                };
        return vehicle.lastVisit().map(d -> visits + ", last " + DAY.format(d)).orElse(visits);
    }

    /**
     * Chooses a vehicle and goes on to the round.
     *
     * @param unit how the fleet calls it
     */
    public void choose(String unit) {
        console.errands()
                .send(
                        () -> console.fromLog(log -> log.vehicle(unit)).stream().toList(),
                        found -> {
                            if (found.isEmpty()) {
                                console.say(unit + " is no longer in the log.");
                                load();
                                return;
                            }
                            console.choose(found.get(0));
                            console.say("");
                            console.go(Screen.ROUND);
                        },
                        console::say);
    }

    /**
     * Says why no vehicle is listed.
     *
     * @return one sentence
     */
    public String whatIfNone() {
        return all.isEmpty() ? "No vehicle yet." : "No vehicle's name has that in it.";
    }

    /**
     * Returns whether the simulated van is what to begin with.
     *
     * @return true in a console that was started with one, as long as its log is empty and no name
     *     was typed
     */
    public boolean isFirstSimulated() {
        return offersSimulated() && all.isEmpty() && search.get().isBlank();
    }

    /** Goes on where no vehicle is listed: with a new one, or the simulated van. */
    public void goOnWithNone() {
        if (isFirstSimulated()) {
            enterSimulated();
        } else {
            enterNew();
        }
    }

    /** Enters a vehicle that the log does not know, called as what was searched for in vain. */
    public void enterNew() {
        console.drive().clear();
        if (shown.isEmpty() && !search.get().isBlank()) {
            console.drive().name(search.get().strip());
        }
        console.go(Screen.DRIVE);
        console.say("Name the vehicle, then put its pulleys on the sketch.");
    }

    /**
     * Returns whether a simulated van can be taken.
     *
     * @return true in a console that was started with one
     */
    public boolean offersSimulated() {
        return console.options().simulated();
    }

    /** Enters the simulated van, so that only its drive has to be looked at and saved. */
    public void enterSimulated() {
        Vehicle van = new SimulatedVan(false).vehicle();
        console.drive().clear();
        console.drive().copyFrom(van);
        console.drive().name(van.unit());
        console.drive().describe(van.description());
        console.go(Screen.DRIVE);
        console.say("This is the simulated van's drive. Save it to go on.");
    }

    /**
     * Copies the drive of a sister vehicle into the one that is entered.
     *
     * @param unit the sister
     */
    public void copyDriveFrom(String unit) {
        console.errands()
                .send(
                        () -> console.fromLog(log -> log.vehicle(unit)).stream().toList(),
                        found -> {
                            found.forEach(console.drive()::copyFrom);
                            console.say(
                                    found.isEmpty()
                                            ? unit + " is no longer in the log."
                                            : "The drive of " + unit + " is copied; check it.");
                        },
                        console::say);
    }

    /**
     * Returns whom a drive can be copied from.
     *
     * @return units of other vehicles
     */
    public List<String> sisters() {
        return all.stream()
                .map(KeptVehicle::unit)
                .filter(u -> !u.equals(console.drive().state().get().unit()))
                .toList();
    }
}
