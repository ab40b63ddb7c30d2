package tickover.console.model;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import tickover.diagnose.BenchResult;
import tickover.session.BenchSitting;
import tickover.session.LineChoice;
import tickover.session.RecordStatus;
import tickover.store.VisitCapture;

/**
 * One removed pulley or bearing, turned alone: what it is, how fast it turns, a known-good one
 * first if there is one, then the part, then what that says. What was typed wrongly can be put
 * right after the capture; the captures are judged anew then.
 *
 * <p>{@link #tick} is called a few times a second and brings everything up to date; between ticks
 * nothing changes by itself.
 */
public final class BenchModel {
    private static final double USUAL_CAPTURE_S = 10;

    private final ConsoleModel console;
    private final ReadOnlyObjectWrapper<BenchState> state;
    private final ReadOnlyObjectWrapper<Cue> cue = new ReadOnlyObjectWrapper<>(Cue.END);
    private final BenchSetup setup = new BenchSetup();
    private final BenchTakes takes = new BenchTakes();
    private BenchVerdictWords verdict = BenchVerdictWords.NOTHING;
    private boolean aimsGood;
    private double captureS = USUAL_CAPTURE_S;
    private BenchSource source;
    private BenchSitting sitting;
    private boolean starting;
    private boolean wasCapturing;
    private int taken;
    private boolean judging;

    /** A capture that came while another was being judged; 0 if none did. */
    private int waiting;

    private BenchSetup.Said judged;
    private BenchSetup.Said put;

    private final Aiming aiming = new Aiming();
    private String failed = "";

    BenchModel(ConsoleModel console) {
        this.console = console;
        this.state = new ReadOnlyObjectWrapper<>(shown(null));
        setup.onChange(this::changed);
        setup.mount().addListener((o, before, now) -> held());
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
    public ReadOnlyObjectProperty<BenchState> state() {
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
     * Returns what is on the bench, as far as it was said.
     *
     * @return always the same
     */
    public BenchSetup setup() {
        return setup;
    }

    /** Offers the parts of the chosen vehicle. */
    void load() {
        setup.offer(console.vehicle().map(BenchPart::of).orElse(List.of(BenchPart.OTHER)));
    }

    private void held() {
        if (sitting != null) {
            console.live().mount(setup.mount().get());
        }
        aim();
    }

    private BenchState.Aim aimed() {
        return new BenchState.Aim(setup.called(), aimsGood, setup.speed().get());
    }

    /** Begins or ends a capture, as the probe's own button does; starts the bench if need be. */
    public void press() {
        if (sitting == null) {
            start();
        } else if (replays()) {
            console.say("This is a recording that runs again; it presses by itself.");
        } else if (!failed.isEmpty()) {
            console.say(failed);
        } else if (!wasCapturing && aiming.holdsBack()) {
            console.say("The simulated bench is being set up; the press counts when it turns.");
        } else {
            sitting.press();
        }
    }

    private void start() {
        Optional<BenchSetup.Said> said = setup.saidOrTold(console::say);
        if (said.isEmpty() || starting || console.isRecordingElsewhere(this)) {
            return;
        }
        starting = true;
        aiming.forget();
        failed = "";
        console.say("Looking for the probe…");
        Path file = console.newRecording("bench-" + setup.called());
        LineChoice.Wish wish = console.lines().wish(console.options().dataDir());
        BenchSitting.Spec spec =
                new BenchSitting.Spec(file, captureS, console.lines().pulsesPerTurn());
        console.errands()
                .send(
                        () -> BenchBegin.at(console.options(), wish, spec),
                        begun -> {
                            starting = false;
                            source = begun.source();
                            sitting = begun.sitting();
                            takes.clear();
                            taken = 0;
                            judged = null;
                            verdict = BenchVerdictWords.NOTHING;
                            console.live().attach(begun.live());
                            console.live().mount(setup.mount().get());
                            console.say(
                                    replays()
                                            ? "This is a recording that runs again."
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

    /**
     * Says whether the next capture is of a known-good part of the same kind.
     *
     * @param knownGood true if so
     */
    public void aim(boolean knownGood) {
        if (!wasCapturing && aimsGood != knownGood) {
            aimsGood = knownGood;
            aim();
        }
    }

    private void aim() {
        publish();
        Optional<BenchSetup.Said> said = setup.said();
        if (sitting == null || said.isEmpty() || wasCapturing) {
            return;
        }
        BenchSetup.Said now = said.get();
        put = now;
        BenchSource at = source;
        BenchSitting running = sitting;
        boolean good = aimsGood;
        Runnable there = () -> running.aim(now.part(), good, setup.mount().get());
        if (at.isSimulated()) {
            aiming.move(
                    console,
                    () -> at.put(now.part(), now.geometry(), now.ring(), good),
                    there,
                    running::press);
        } else {
            there.run();
        }
    }

    /** Brings what is shown up to date. */
    public void tick() {
        if (sitting == null) {
            return;
        }
        RecordStatus now = sitting.status();
        if (now.capturing() && !wasCapturing) {
            wasCapturing = true;
            boolean good = BenchSitting.isKnownGood(now.point());
            takes.begin(now.capture(), setup.called(), good);
            cue.set(Cue.BEGIN);
        } else if (!now.capturing() && wasCapturing) {
            wasCapturing = false;
            takes.end();
            cue.set(Cue.END);
            if (aimsGood) {
                aimsGood = false;
                aim();
            }
        }
        int over = Math.min(sitting.over(), takes.size());
        if (over > taken) {
            taken++;
            take(taken);
        }
        console.live().silent(RoundState.silence(now));
        if (!now.failure().equals(failed)) {
            failed = now.failure();
            console.say(failed);
        }
        // What was acted on, not a status that is newer than that.
        state.set(shown(now));
    }

    private void take(int number) {
        BenchSitting from = sitting;
        console.errands()
                .send(
                        () -> from.take(number),
                        capture -> {
                            if (from == sitting || sitting == null) {
                                takes.came(number, capture);
                                judge(number);
                            }
                        },
                        why -> spoilt(number, why));
    }

    private void spoilt(int number, String why) {
        if (number <= takes.size()) {
            cue.set(Cue.REPEAT);
            aimsGood = takes.spoilt(number, why);
            aim();
        }
    }

    /** Something that was said has changed: what was captured is judged anew. */
    private void changed() {
        Optional<BenchSetup.Said> said = setup.said();
        if (said.isPresent() && !said.get().like(put)) {
            aim();
        }
        if (said.isPresent() && takes.haveAny() && !said.get().like(judged)) {
            judge(0);
        } else {
            publish();
        }
    }

    /**
     * Judges the latest capture of the part beside all known-good ones.
     *
     * @param fresh number of the capture that has just come; 0 if none has
     */
    private void judge(int fresh) {
        Optional<BenchSetup.Said> said = fresh > 0 ? setup.saidOrTold(console::say) : setup.said();
        if (judging) {
            waiting = Math.max(waiting, fresh);
        }
        if (said.isEmpty() || judging) {
            return;
        }
        judging = true;
        waiting = 0;
        BenchSetup.Said now = said.get();
        judged = now;
        BenchWork work = new BenchWork(now.geometry(), now.ring(), now.speed(), now.rpm());
        List<VisitCapture> goods = takes.of(true);
        List<VisitCapture> own = takes.of(false);
        boolean good = fresh > 0 && takes.rows().get(fresh - 1).knownGood();
        console.errands()
                .send(
                        () ->
                                good || own.isEmpty()
                                        ? work.tried(goods.get(goods.size() - 1))
                                        : work.judged(own.get(own.size() - 1), goods),
                        told -> told(now, told, fresh),
                        why -> {
                            if (fresh > 0) {
                                spoilt(fresh, why);
                            } else {
                                verdict = BenchVerdictWords.none(why);
                            }
                            judgedOne();
                        });
    }

    private void told(BenchSetup.Said by, BenchWork.Told told, int fresh) {
        takes.settle();
        if (fresh > 0) {
            cue.set(Cue.GOOD);
        }
        if (told.results().isEmpty()) {
            told.notes().forEach(console::say);
        }
        List<BenchResult> results = told.results();
        if (!results.isEmpty()) {
            BenchVerdictWords words = BenchVerdictWords.of(results.get(0), by.internalsKnown());
            verdict = words.withNotes(by.notes(), told.notes());
        }
        judgedOne();
    }

    /** Something may have been captured or typed meanwhile. */
    private void judgedOne() {
        judging = false;
        publish();
        if (waiting > 0) {
            judge(waiting);
        } else {
            changed();
        }
    }

    /** Keeps the verdict as a note on the vehicle that is chosen. */
    public void keepNote() {
        String unit = console.unit().get();
        if (verdict.headline().isEmpty() || judged == null) {
            console.say("There is no verdict yet.");
            return;
        }
        if (unit.isEmpty()) {
            console.say("Choose the vehicle first that the part is from (1 Vehicle).");
            return;
        }
        console.history().keep(unit, setup.part().get().part(), verdict.asNote(judged.part()));
    }

    /** Ends the sitting; the recording stays on the disk, and the verdict on the screen. */
    public void finish() {
        if (sitting == null) {
            return;
        }
        BenchSitting ending = sitting;
        BenchSource from = source;
        sitting = null;
        wasCapturing = false;
        takes.forgetSamples();
        console.live().detach();
        console.errands()
                .send(
                        () -> {
                            try (from) {
                                ending.close();
                                return ending.file();
                            }
                        },
                        file -> console.say("The recording is " + file + "."),
                        console::say);
        publish();
    }

    /** Ends the recording when the window closes. It stays on the disk. */
    public void close() {
        if (sitting != null) {
            sitting.close();
            source.close();
            sitting = null;
            console.live().detach();
        }
    }

    private boolean replays() {
        return console.options().replays();
    }

    /** Whether it is recording. */
    boolean isRunning() {
        return sitting != null || starting;
    }

    private BenchState shown(RecordStatus statusOrNull) {
        return BenchState.of(aimed(), statusOrNull, captureS, takes.rows(), verdict, replays());
    }

    private void publish() {
        state.set(shown(sitting == null ? null : sitting.status()));
    }
}
