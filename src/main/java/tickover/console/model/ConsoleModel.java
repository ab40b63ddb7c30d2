package tickover.console.model;

import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import tickover.drive.Vehicle;
import tickover.session.Round;
import tickover.store.Log;

/** The console as a whole: which screen shows, which vehicle it is about, what happened last. */
public final class ConsoleModel {
    private static final DateTimeFormatter STAMP =
            DateTimeFormatter.ofPattern("uuuu-MM-dd-HHmmss", Locale.ROOT);

    private final ConsoleOptions options;
    private final Errands errands;
    private final Preferences preferences;
    private final ReadOnlyObjectWrapper<Screen> screen =
            new ReadOnlyObjectWrapper<>(Screen.VEHICLE);
    private final ReadOnlyStringWrapper message = new ReadOnlyStringWrapper("");
    private final ReadOnlyStringWrapper unit = new ReadOnlyStringWrapper("");
    private final DriveDraft drive = new DriveDraft();
    private final VehicleModel vehicles;
    private final FindingsModel findings;
    private final RoundModel round;
    private final LiveModel live;
    private final HistoryModel history;
    private final CompareModel compare;
    private final LineSetup lines;
    private final ListenModel listen;
    private final BenchModel bench;
    private Vehicle vehicle;

    /**
     * Starts a console.
     *
     * @param options how
     * @param errands takes slow work
     */
    public ConsoleModel(ConsoleOptions options, Errands errands) {
        this.options = Objects.requireNonNull(options, "options");
        this.errands = Objects.requireNonNull(errands, "errands");
        this.preferences = new Preferences(options.dataDir());
        this.vehicles = new VehicleModel(this);
        this.findings = new FindingsModel(this);
        this.round = new RoundModel(this);
        this.live = new LiveModel(this);
        this.history = new HistoryModel(this);
        this.compare = new CompareModel(this);
        this.lines = new LineSetup(this);
        this.listen = new ListenModel(this);
        this.bench = new BenchModel(this);
    }

    /**
     * Returns how the console was started.
     *
     * @return the options
     */
    public ConsoleOptions options() {
        return options;
    }

    Errands errands() {
        return errands;
    }

    /** Asks the log, opened for this alone: others may write to it in between. */
    <T> T fromLog(Function<Log, T> question) {
        try (Log log = Log.open(options.log())) {
            return question.apply(log);
        }
    }

    /**
     * Returns how the user likes it.
     *
     * @return the preferences
     */
    public Preferences preferences() {
        return preferences;
    }

    /**
     * Returns which screen shows.
     *
     * @return observable, never null
     */
    public ReadOnlyObjectProperty<Screen> screen() {
        return screen.getReadOnlyProperty();
    }

    /**
     * Returns what happened last, or what stands in the way.
     *
     * @return observable sentence, empty if there is nothing to say
     */
    public ReadOnlyStringProperty message() {
        return message.getReadOnlyProperty();
    }

    /**
     * Returns which vehicle this is about.
     *
     * @return observable name of the vehicle, empty if none is chosen
     */
    public ReadOnlyStringProperty unit() {
        return unit.getReadOnlyProperty();
    }

    /**
     * Returns the vehicle that was chosen.
     *
     * @return empty if none is
     */
    public Optional<Vehicle> vehicle() {
        return Optional.ofNullable(vehicle);
    }

    /**
     * Returns the vehicle screen's model.
     *
     * @return always the same
     */
    public VehicleModel vehicles() {
        return vehicles;
    }

    /**
     * Returns the round screen's model.
     *
     * @return always the same
     */
    public RoundModel round() {
        return round;
    }

    /**
     * Returns the live screen's model.
     *
     * @return always the same
     */
    public LiveModel live() {
        return live;
    }

    /**
     * Returns the history screen's model.
     *
     * @return always the same
     */
    public HistoryModel history() {
        return history;
    }

    /**
     * Returns the model of the screen of before and after.
     *
     * @return always the same
     */
    public CompareModel compare() {
        return compare;
    }

    /**
     * Returns what to record from.
     *
     * @return always the same
     */
    public LineSetup lines() {
        return lines;
    }

    /**
     * Returns the listening screen's model.
     *
     * @return always the same
     */
    public ListenModel listen() {
        return listen;
    }

    /**
     * Returns the bench screen's model.
     *
     * @return always the same
     */
    public BenchModel bench() {
        return bench;
    }

    /**
     * Returns the findings screen's model.
     *
     * @return always the same
     */
    public FindingsModel findings() {
        return findings;
    }

    /**
     * Returns the drive screen's model.
     *
     * @return always the same
     */
    public DriveDraft drive() {
        return drive;
    }

    /**
     * Shows a screen. Those that need a vehicle say so as long as none is chosen.
     *
     * @param next the screen
     */
    public void go(Screen next) {
        if (vehicle == null && needsVehicle(next)) {
            say("Choose a vehicle first, or enter a new one.");
            screen.set(Screen.VEHICLE);
            return;
        }
        if (next != screen.get()) {
            say(""); // What was said belongs to the screen that is left.
        }
        screen.set(next);
        if (next == Screen.FINDINGS && !round.state().get().running()) {
            findings.load();
        }
        if (next == Screen.HISTORY) {
            history.load();
        }
        if (next == Screen.COMPARE) {
            compare.load();
        }
        if (next == Screen.LISTEN) {
            listen.load();
        }
        if (next == Screen.BENCH) {
            bench.load();
        }
    }

    private static boolean needsVehicle(Screen screen) {
        return switch (screen) {
            case VEHICLE, DRIVE, HISTORY, BENCH -> false;
            case ROUND, LIVE, FINDINGS, COMPARE, LISTEN -> true;
        };
    }

    /** Begins: a recording that is to run again brings its vehicle along, and starts. */
    public void begin() {
        vehicles.load();
        if (options.replays()) {
            say("Reading the recording…");
            errands.send(
                    () -> Round.vehicleOf(Path.of(options.replayed())).stream().toList(),
                    this::replay,
                    this::say);
        }
    }

    private void replay(List<Vehicle> of) {
        if (of.isEmpty()) {
            go(Screen.BENCH);
            say("The recording names no vehicle. If it is of a bench, say what was on it.");
            return;
        }
        choose(of.get(0));
        go(Screen.LIVE);
        round.start();
    }

    /** Begins or ends a capture, at the bench if that is recording, else on the round. */
    public void press() {
        if (bench.isRunning()) {
            bench.press();
        } else {
            round.press();
        }
    }

    /** Whether something else than the one who asks is recording; says so. */
    boolean isRecordingElsewhere(Object asking) {
        if (asking != bench && bench.isRunning()) {
            say("The bench is recording: finish there first (8 Bench).");
            return true;
        }
        if (asking != round && round.isRunning()) {
            say("A round is being recorded: finish it first (3 Round).");
            return true;
        }
        return false;
    }

    /** Writes the report of what is shown: both visits on the screen of before and after. */
    public void report() {
        if (screen.get() == Screen.COMPARE) {
            compare.report();
        } else {
            findings.report();
        }
    }

    /** Ends whatever is recorded, when the window closes. It stays on the disk. */
    public void close() {
        round.close();
        bench.close();
    }

    /** A name as it can stand in a file's. */
    static String fileNameOf(String words) {
        return words.replaceAll("[^\\p{L}\\p{N}._-]", "_");
    }

    /** A name for a recording that does not exist yet. */
    Path newRecording(String about) {
        return options.recordings()
                .resolve(
                        fileNameOf(about)
                                + "-"
                                + STAMP.format(LocalDateTime.now(ZoneId.systemDefault()))
                                + ".tkr");
    }

    /** Makes a vehicle the one that everything is about. */
    void choose(Vehicle chosen) {
        vehicle = Objects.requireNonNull(chosen, "chosen");
        unit.set(chosen.unit());
        drive.open(chosen);
        round.open(chosen);
    }

    /**
     * Saves the drive that was entered and makes its vehicle the one that everything is about.
     *
     * @return false if something is still missing, which the message says
     */
    public boolean saveDrive() {
        return saveDrive(() -> {});
    }

    /**
     * Saves it and goes on.
     *
     * @param then what is done once it is saved
     * @return false if something is still missing, which the message says
     */
    public boolean saveDrive(Runnable then) {
        Optional<Vehicle> entered = drive.outcome().get().model().map(m -> m.vehicle());
        if (entered.isEmpty() || !drive.outcome().get().complaints().isEmpty()) {
            say("Not saved yet. " + drive.outcome().get().complaints().get(0));
            return false;
        }
        Vehicle saved = entered.get();
        errands.send(
                () ->
                        fromLog(
                                log -> {
                                    log.saveVehicle(saved);
                                    return saved.unit();
                                }),
                name -> {
                    vehicle = saved;
                    unit.set(name);
                    drive.markSaved();
                    round.open(saved);
                    vehicles.load();
                    then.run();
                    say("The drive of " + name + " is saved.");
                },
                this::say);
        return true;
    }

    /** Writes the belt's way round the engine to a page that can be printed and taken along. */
    public void keepRoutingSketch() {
        RoutingSketch.keep(this);
    }

    /**
     * Says something to the user.
     *
     * @param sentence what happened, or what stands in the way
     */
    public void say(String sentence) {
        message.set(Objects.requireNonNull(sentence, "sentence"));
    }
}
