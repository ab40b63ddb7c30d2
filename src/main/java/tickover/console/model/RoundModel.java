package tickover.console.model;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import tickover.diagnose.Mount;
import tickover.diagnose.Regime;
import tickover.drive.Condition;
import tickover.drive.Vehicle;
import tickover.session.LineChoice;
import tickover.session.PlannedCapture;
import tickover.session.RecordStatus;
import tickover.session.Round;
import tickover.store.Visit;

/**
 * The walk round the engine: what to touch, in which order, under which load; what is done, what is
 * good, what has to be repeated and why.
 *
 * <p>{@link #tick} is called a few times a second and brings everything up to date; between ticks
 * nothing changes by itself.
 */
public final class RoundModel {
    private static final double USUAL_CAPTURE_S = 10;

    private final ConsoleModel console;
    private final ReadOnlyObjectWrapper<RoundState> state =
            new ReadOnlyObjectWrapper<>(RoundState.IDLE);
    private final ReadOnlyObjectWrapper<Cue> cue = new ReadOnlyObjectWrapper<>(Cue.END);
    private final StringProperty complaint = new SimpleStringProperty("");
    private final List<Touch> touches = new ArrayList<>();
    private int aimed;
    private RoundSource source;
    private Round round;
    private boolean starting;
    private final Aiming aiming = new Aiming();
    private String failed = "";

    /** Which touch each capture was, in the order of the captures. */
    private final List<Integer> captured = new ArrayList<>();

    private double captureS;
    private boolean wasCapturing;
    private int understood;

    RoundModel(ConsoleModel console) {
        this.console = console;
        this.captureS = USUAL_CAPTURE_S;
    }

    /**
     * Sets the length of the captures to come.
     *
     * @param lengthS s, &gt; 0
     */
    public void captureLength(double lengthS) {
        captureS = lengthS;
    }

    /**
     * Returns what is shown.
     *
     * @return observable, never null
     */
    public ReadOnlyObjectProperty<RoundState> state() {
        return state.getReadOnlyProperty();
    }

    /**
     * Returns what was to be heard last; a listener plays it.
     *
     * @return observable
     */
    public ReadOnlyObjectProperty<Cue> cue() {
        return cue.getReadOnlyProperty();
    }

    /**
     * Returns what the driver says.
     *
     * @return free text
     */
    public StringProperty complaint() {
        return complaint;
    }

    /** Shows the vehicle's proposed touches, unless a round is under way. */
    void open(Vehicle vehicle) {
        if (round == null) {
            touches.clear();
            touches.addAll(RoundProposal.of(vehicle));
            captured.clear();
            aimed = 0;
            understood = 0;
            publish();
        }
    }

    /** Begins the round: finds the probe and starts to record. */
    public void start() {
        Optional<Vehicle> vehicle = console.vehicle();
        if (vehicle.isEmpty() || isRunning() || console.isRecordingElsewhere(this)) {
            return;
        }
        boolean replays = replays();
        starting = true;
        aiming.forget();
        failed = "";
        console.say(replays ? "Reading the recording…" : "Looking for the probe…");
        Vehicle of = vehicle.get();
        Path file = console.newRecording(of.unit());
        String says = complaint.get();
        LineChoice.Wish wish = console.lines().wish(console.options().dataDir());
        int pulses = console.lines().pulsesPerTurn();
        String marked = console.lines().marked().get();
        console.errands()
                .send(
                        () ->
                                begun(
                                        of,
                                        wish,
                                        new Round.Spec(file, of, says, captureS, pulses, marked)),
                        begun -> {
                            starting = false;
                            source = begun.source();
                            round = begun.round();
                            console.live().attach(begun.live(), of);
                            follow(round.planned());
                            console.say(
                                    replays
                                            ? "This is a recording that runs again; it presses by"
                                                    + " itself."
                                            : "Recording to "
                                                    + file.getFileName()
                                                    + "; nothing is lost.");
                            aim();
                        },
                        why -> {
                            starting = false;
                            console.say(why);
                        });
    }

    private RoundBegin begun(Vehicle vehicle, LineChoice.Wish wish, Round.Spec spec) {
        ConsoleOptions options = console.options();
        if (options.replays()) {
            return RoundBegin.replayed(options, vehicle);
        }
        return RoundBegin.recorded(
                options.simulated()
                        ? RoundSources.simulated(RoundSources.isMended(console, vehicle.unit()))
                        : RoundSources.ports(wish),
                spec);
    }

    /** What was captured takes the place of what is proposed. */
    private void follow(List<PlannedCapture> planned) {
        if (replays()) {
            touches.clear();
            planned.forEach(p -> touches.add(Touch.open(p.point(), p.condition())));
            captured.clear();
            aimed = 0;
            understood = 0;
            wasCapturing = false;
        }
    }

    /**
     * Lets a recording run faster or slower.
     *
     * @param pace how many times as fast as it was
     */
    public void pace(double pace) {
        if (round != null) {
            round.pace(pace);
        }
    }

    /**
     * Chooses where to go next, out of turn.
     *
     * @param index number of the touch, from 0
     */
    public void choose(int index) {
        boolean free = !wasCapturing && !replays();
        if (index >= 0 && index < touches.size() && free) {
            aimed = index;
            aim();
        }
    }

    /**
     * Chooses a point by its name: the first touch there that is not good yet, or one more.
     *
     * @param point the point
     */
    public void choose(String point) {
        if (replays()) {
            return;
        }
        int at = -1;
        for (int i = 0; i < touches.size() && at < 0; i++) {
            Touch t = touches.get(i);
            at = t.point().equals(point) && t.state() != Touch.State.GOOD ? i : -1;
        }
        if (at < 0) {
            touches.add(Touch.open(point, Condition.UNLOADED));
            at = touches.size() - 1;
        }
        choose(at);
    }

    private void aim() {
        publish();
        if (round == null || aimed >= touches.size()) {
            return;
        }
        Touch t = touches.get(aimed);
        RoundSource at = source;
        Round running = round;
        Mount mount = console.lines().mount().get();
        console.live().mount(mount);
        PlannedCapture next =
                new PlannedCapture(t.point(), "radial", mount, Regime.IDLE, t.condition());
        Runnable there = () -> running.aim(next);
        if (at.isSimulated()) {
            aiming.move(console, () -> at.moved(t.point(), t.condition()), there, running::press);
        } else {
            there.run();
        }
    }

    /** Begins or ends a capture, as the probe's own button does; starts the round if need be. */
    public void press() {
        if (round == null) {
            start();
        } else if (replays()) {
            console.say("This is a recording that runs again; it presses by itself.");
        } else if (!failed.isEmpty()) {
            console.say(failed);
        } else if (!wasCapturing && aimed >= touches.size()) {
            console.say("Everything proposed is done: finish the round, or choose one more point.");
        } else if (!wasCapturing && aiming.holdsBack()) {
            console.say("The simulated probe is on its way; the press counts when it is there.");
        } else {
            round.press();
        }
    }

    /** Brings what is shown up to date. */
    public void tick() {
        if (round == null) {
            return;
        }
        RecordStatus now = round.status();
        if (now.capturing() && !wasCapturing) {
            wasCapturing = true;
            captured.add(replays() ? Math.min(now.capture(), touches.size()) - 1 : aimed);
            put(captured.get(captured.size() - 1), Touch.State.RUNNING, "");
            cue.set(Cue.BEGIN);
        } else if (!now.capturing() && wasCapturing) {
            wasCapturing = false;
            put(captured.get(captured.size() - 1), Touch.State.CHECKING, "");
            cue.set(Cue.END);
            aimed = replays() ? now.capture() - 1 : nextOpen();
            aim();
        }
        if (round.analysed() > understood) {
            understood = round.analysed();
            judge();
        }
        console.live().silent(RoundState.silence(now));
        if (!now.failure().equals(failed)) {
            failed = now.failure();
            console.say(failed);
        }
        publish(now);
    }

    private void put(int index, Touch.State next, String why) {
        touches.set(index, touches.get(index).as(next, why));
    }

    private int nextOpen() {
        for (int i = 0; i < touches.size(); i++) {
            if (touches.get(i).state() == Touch.State.OPEN
                    || touches.get(i).state() == Touch.State.REPEAT) {
                return i;
            }
        }
        return touches.size();
    }

    /** Says of every capture that has been looked at whether it was good. */
    private void judge() {
        Optional<Round.SoFar> soFar = round.soFar();
        boolean anyBad = false;
        for (int i = 0; i < Math.min(understood, captured.size()); i++) {
            String id = String.format(Locale.ROOT, "c%02d", i + 1);
            String why = soFar.map(s -> RoundJudge.worthless(s, id)).orElse(round.problem());
            boolean bad = !why.isEmpty();
            anyBad |= bad && i == understood - 1;
            put(captured.get(i), bad ? Touch.State.REPEAT : Touch.State.GOOD, why);
        }
        cue.set(anyBad ? Cue.REPEAT : Cue.GOOD);
        if (anyBad && !wasCapturing && !replays()) {
            aimed = nextOpen();
            aim();
        }
        soFar.ifPresent(s -> console.findings().live(s.visit(), s.result()));
    }

    private boolean replays() {
        return console.options().replays();
    }

    /** Ends the round: the visit goes into the log, and what it says is shown. */
    public void finish() {
        if (round == null) {
            return;
        }
        Round ending = round;
        RoundSource from = source;
        round = null;
        console.live().detach();
        console.say("Keeping the visit…");
        console.errands()
                .send(
                        () -> {
                            try (from) {
                                return ending.keep(console.options().log()).map(Visit::id).stream()
                                        .toList();
                            }
                        },
                        kept -> {
                            console.vehicle().ifPresent(this::open);
                            if (kept.isEmpty()) {
                                console.say(
                                        "Nothing was captured; the recording is "
                                                + ending.file()
                                                + ".");
                            } else {
                                console.go(Screen.FINDINGS);
                            }
                        },
                        why -> console.say(why + " The recording is " + ending.file() + "."));
        publish();
    }

    /** Ends the recording without a visit, when the window closes. It stays on the disk. */
    public void close() {
        if (round != null) {
            round.close();
            source.close();
            round = null;
            console.live().detach();
        }
    }

    /** Whether it is recording. */
    boolean isRunning() {
        return round != null || starting;
    }

    /** What the captures say so far; empty before the first, and where no round runs. */
    Optional<Round.SoFar> soFar() {
        return round == null ? Optional.empty() : round.soFar();
    }

    /** Where the probe is meant to be; empty where nothing is. */
    String aimedPoint() {
        int at = wasCapturing ? captured.get(captured.size() - 1) : aimed;
        return at < touches.size() ? touches.get(at).point() : "";
    }

    private void publish() {
        publish(round == null ? null : round.status());
    }

    /** Shows what was acted on, not a status that is newer than that. */
    private void publish(RecordStatus statusOrNull) {
        Touch next = aimed < touches.size() ? touches.get(aimed) : null;
        List<String> cautions = next == null ? List.of() : RoundProposal.cautions(next);
        state.set(RoundState.of(touches, aimed, statusOrNull, captureS, cautions, replays()));
    }
}
