package tickover.console.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyDoubleProperty;
import javafx.beans.property.ReadOnlyDoubleWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import tickover.diagnose.Mount;
import tickover.drive.Vehicle;
import tickover.session.LiveFrame;
import tickover.session.LivePipeline;

/**
 * What the probe feels now: the latest snapshot, the waterfall's rows, and what is told of them.
 *
 * <p>{@link #pulse} is called once per screen frame and reads the latest snapshot; nothing here
 * waits for anything. Words and bars change a few times a second, so that they can be read.
 */
public final class LiveModel {
    /** Orders at the waterfall's right end, from near to far. */
    private static final List<Double> REACHES = List.of(8.0, 16.0, 32.0, 64.0, 102.0);

    /** Words and bars change so often, s. */
    private static final double WORDS_EVERY_S = 0.25;

    private final ConsoleModel console;
    private final Hearing hearing;
    private final FallHistory motion = new FallHistory(60, 1);

    /** Rhythms stand little above chance in 16 turns: means over some 4 s, and a narrow scale. */
    private final FallHistory knocks = new FallHistory(18, 0.01);

    private final ReadOnlyBooleanWrapper showsKnocks = new ReadOnlyBooleanWrapper(false);
    private final ReadOnlyObjectWrapper<LiveState> state =
            new ReadOnlyObjectWrapper<>(LiveState.IDLE);
    private final ReadOnlyDoubleWrapper reachOrders = new ReadOnlyDoubleWrapper(16);
    private LivePipeline pipeline;
    private Mount mount = Mount.HAND;
    private LiveFrame frame;
    private long seen;
    private String chosen = "";
    private double pointedOrders;
    private double cycleOrders = 0.5;
    private double wordsAtS = Double.NEGATIVE_INFINITY;
    private String silence = "";

    LiveModel(ConsoleModel console) {
        this.console = console;
        this.hearing = new Hearing(console);
    }

    /**
     * Returns what plays the chosen part while the probe is held.
     *
     * @return always the same
     */
    public Hearing hearing() {
        return hearing;
    }

    /** Lets the chosen part be heard, or silences it. */
    public void hear() {
        hearing.toggle(chosen);
        tell();
    }

    /**
     * Listens to a stream from now on.
     *
     * @param to the stream's picture
     * @param vehicle whose engine it is
     */
    public void attach(LivePipeline to, Vehicle vehicle) {
        attach(to);
        cycleOrders = vehicle.engine().cycleOrder();
    }

    /** Listens to a stream that is of no engine. */
    void attach(LivePipeline to) {
        pipeline = to;
        silence = "";
        hearing.attach(to);
        frame = null;
        seen = -1;
        motion.clear();
        knocks.clear();
        chosen = "";
        pointedOrders = 0;
        wordsAtS = Double.NEGATIVE_INFINITY;
    }

    /** Says how the probe is held. */
    void mount(Mount held) {
        mount = held;
    }

    /** Nothing is listened to any more. */
    void detach() {
        pipeline = null;
        hearing.detach();
        frame = null;
        motion.clear();
        knocks.clear();
        state.set(LiveState.IDLE);
    }

    /**
     * Reads the latest snapshot.
     *
     * @return whether there was a new one
     */
    public boolean pulse() {
        LiveFrame next = pipeline == null ? null : pipeline.latest().orElse(null);
        if (next == null || next.number() == seen) {
            return false;
        }
        seen = next.number();
        frame = next;
        motion.take(next.setup(), next.motion());
        knocks.take(next.setup(), next.knocks());
        if (next.arrivalS() >= wordsAtS || next.arrivalS() < wordsAtS - 2 * WORDS_EVERY_S) {
            wordsAtS = next.arrivalS() + WORDS_EVERY_S;
            tell();
        }
        return true;
    }

    /**
     * Says why nothing comes from the probe: the latest snapshot is old then.
     *
     * @param why one sentence; empty where something comes
     */
    void silent(String why) {
        if (!why.equals(silence)) {
            silence = why;
            tell();
        }
    }

    private void tell() {
        if (frame == null) {
            return;
        }
        hearing.tell(frame, chosen);
        String aimed = console.round().aimedPoint();
        boolean mute = !silence.isEmpty();
        List<String> quality = new ArrayList<>(mute ? List.of(silence) : LiveWords.quality(frame));
        boolean sound = quality.isEmpty();
        if (sound) {
            quality.add("The signal is sound.");
        }
        quality.add(LiveWords.limit(mount));
        List<String> pointed =
                pointedOrders > 0
                        ? LiveWords.pointed(
                                frame,
                                pointedOrders,
                                fall().levelMps2(pointedOrders),
                                cycleOrders,
                                showsKnocks.get())
                        : List.of();
        state.set(
                new LiveState(
                        true,
                        mute ? "no samples" : LiveWords.speed(frame),
                        mute ? silence : LiveWords.speedNote(frame),
                        mute ? "" : String.format(Locale.ROOT, "%.2f m/s² rms", frame.rmsMps2()),
                        quality,
                        sound,
                        LiveWords.forming(frame),
                        LiveWords.bars(frame, aimed),
                        chosen,
                        LiveWords.marks(frame, chosen, showsKnocks.get()),
                        LiveWords.limitOrders(frame, mount),
                        pointedOrders,
                        pointed));
    }

    /**
     * Returns what is told.
     *
     * @return observable, never null
     */
    public ReadOnlyObjectProperty<LiveState> state() {
        return state.getReadOnlyProperty();
    }

    /**
     * Returns the latest snapshot, to be read until the next {@link #pulse}.
     *
     * @return empty before the first
     */
    public Optional<LiveFrame> frame() {
        return Optional.ofNullable(frame);
    }

    /**
     * Returns the rows of the waterfall that is shown.
     *
     * @return of what moves or of what knocks
     */
    public FallHistory fall() {
        return showsKnocks.get() ? knocks : motion;
    }

    /**
     * Returns which waterfall is shown.
     *
     * @return observable; true for the rhythms of knocks
     */
    public ReadOnlyBooleanProperty showsKnocks() {
        return showsKnocks.getReadOnlyProperty();
    }

    /** Shows the other waterfall. */
    public void swap() {
        showsKnocks.set(!showsKnocks.get());
        tell();
    }

    /**
     * Returns up to which order the waterfall reaches.
     *
     * @return observable, per crank turn
     */
    public ReadOnlyDoubleProperty reachOrders() {
        return reachOrders.getReadOnlyProperty();
    }

    /**
     * Lets the waterfall reach farther or less far.
     *
     * @param steps how many steps farther; negative for nearer
     */
    public void reach(int steps) {
        int at = REACHES.indexOf(reachOrders.get()) + steps;
        reachOrders.set(REACHES.get(Math.max(0, Math.min(REACHES.size() - 1, at))));
    }

    /**
     * Chooses the part whose lines are laid over the waterfall.
     *
     * @param part its name; the one that was chosen, or an empty name, for none
     */
    public void choose(String part) {
        chosen = part.equals(chosen) ? "" : part;
        tell();
    }

    /**
     * Chooses the next part.
     *
     * @param steps how many farther in the list, in which none comes first; negative for back
     */
    public void chooseNext(int steps) {
        if (frame == null) {
            return;
        }
        List<String> names = new ArrayList<>(List.of(""));
        names.addAll(frame.setup().parts());
        int at = Math.floorMod(names.indexOf(chosen) + steps, names.size());
        chosen = names.get(at);
        tell();
    }

    /**
     * Points at an order.
     *
     * @param orders per crank turn; 0 for nowhere
     */
    public void point(double orders) {
        pointedOrders = Math.max(0, Math.min(orders, reachOrders.get()));
        tell();
    }

    /**
     * Moves what is pointed at by one bin of the waterfall.
     *
     * @param bins how many to the right; negative for left
     */
    public void pointAside(int bins) {
        if (frame != null) {
            double bin = 1.0 / frame.setup().turnsPerFrame();
            point(Math.max(bin, Math.rint(pointedOrders / bin + bins) * bin));
        }
    }

    /**
     * Points at the next line of the chosen part, or of any part if none is chosen.
     *
     * @param forward to the right, or to the left
     */
    public void pointNextLine(boolean forward) {
        if (frame == null) {
            return;
        }
        double best = 0;
        for (int i = 0; i < frame.setup().lines().size(); i++) {
            double at = frame.levels().orders(i);
            boolean mine = chosen.isEmpty() || frame.setup().lines().get(i).part().equals(chosen);
            boolean beyond = forward ? at > pointedOrders + 1e-6 : at < pointedOrders - 1e-6;
            boolean nearer = best == 0 || (forward ? at < best : at > best);
            if (mine && beyond && nearer && at <= reachOrders.get()) {
                best = at;
            }
        }
        if (best > 0) {
            point(best);
        }
    }
}
