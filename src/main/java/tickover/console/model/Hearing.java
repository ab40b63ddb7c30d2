package tickover.console.model;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import tickover.diagnose.LivePartSound;
import tickover.drive.PartWords;
import tickover.session.ListeningFile;
import tickover.session.LiveFrame;
import tickover.session.LivePipeline;
import tickover.session.LiveSound;
import tickover.session.Loudness;
import tickover.session.PartAudio;
import tickover.session.SoundFollower;

/** The chosen part's own lines through the loudspeaker while the probe is held. */
public final class Hearing {
    /** What may wait in the loudspeaker's own line, s. */
    public static final double LINE_S = 0.1;

    /** A piece of angle is known one turn later, when the tach has reported: ten times a second. */
    private static final double REPORT_S = 0.1;

    private static final int MOST_NAMED = 6;
    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HHmmss");

    private final ConsoleModel console;
    private final ReadOnlyBooleanWrapper on = new ReadOnlyBooleanWrapper(false);
    private final ReadOnlyStringWrapper words = new ReadOnlyStringWrapper("");
    private Loudspeaker speaker = new NoLoudspeaker();
    private LivePipeline pipeline;
    private LiveSound sound;
    private boolean mute;

    Hearing(ConsoleModel console) {
        this.console = console;
    }

    /**
     * Says what plays the sound.
     *
     * @param to the loudspeaker
     */
    public void speaker(Loudspeaker to) {
        speaker = to;
    }

    /**
     * Returns whether a part is heard.
     *
     * @return observable
     */
    public ReadOnlyBooleanProperty on() {
        return on.getReadOnlyProperty();
    }

    /**
     * Returns what of the part is heard, how late, and what is left out.
     *
     * @return observable; empty while nothing is heard
     */
    public ReadOnlyStringProperty words() {
        return words.getReadOnlyProperty();
    }

    /** Another stream is listened to. */
    void attach(LivePipeline to) {
        stop();
        sound = null;
        pipeline = to;
    }

    /** Nothing is listened to any more; what was heard can still be saved. */
    void detach() {
        stop();
        pipeline = null;
    }

    /** Begins with the chosen part, or falls silent. */
    void toggle(String chosen) {
        if (on.get()) {
            stop();
        } else if (pipeline == null) {
            console.say("Nothing is listened to. Start the round: space bar.");
        } else if (chosen.isEmpty()) {
            console.say("Choose a part first: arrow keys up and down, or its name at its level.");
        } else {
            begin(chosen);
        }
    }

    private void begin(String part) {
        sound = pipeline.listenTo(part);
        on.set(true);
        mute = false;
        speaker.follow(
                new SoundFollower(sound),
                why -> {
                    mute = true;
                    console.say(why);
                });
    }

    private void stop() {
        if (on.get()) {
            on.set(false);
            words.set("");
            speaker.stop();
            pipeline.listenToNone();
        }
    }

    /** Follows what is chosen, and puts into words what is heard of it. */
    void tell(LiveFrame frame, String chosen) {
        if (!on.get()) {
            return;
        }
        if (chosen.isEmpty()) {
            stop();
            return;
        }
        if (!chosen.equals(sound.part())) {
            begin(chosen);
        }
        words.set(words(frame, chosen));
    }

    private String words(LiveFrame frame, String part) {
        List<String> own = new ArrayList<>();
        List<String> shared = new ArrayList<>();
        for (boolean knocks : new boolean[] {false, true}) {
            for (LiveState.Mark mark : LiveWords.marks(frame, part, knocks)) {
                List<String> of = mark.shared() ? shared : own;
                // Two bearings of a part may each have an outer ring.
                if (mark.here() && !of.contains(mark.words())) {
                    of.add(mark.words());
                }
            }
        }
        String the = PartWords.the(part);
        String left =
                shared.isEmpty() ? "" : " Left out, because others have them too: " + list(shared);
        if (!(frame.speedRpm() > 0)) {
            return "Nothing is heard of " + the + " before there is a speed.";
        }
        if (own.isEmpty()) {
            return "Nothing of " + the + " is its own." + left;
        }
        double lateS =
                REPORT_S
                        + LINE_S
                        + SoundFollower.WAITING_S
                        + (LivePartSound.DELAY_TURNS + 1) * 60 / frame.speedRpm();
        String how =
                mute
                        ? "No loudspeaker: W saves the latest " + LiveSound.KEPT_S + " s of "
                        : String.format(Locale.ROOT, "Heard %.1f s late of ", lateS);
        return how + the + ": " + list(own) + left;
    }

    private static String list(List<String> lines) {
        boolean more = lines.size() > MOST_NAMED;
        return String.join(", ", lines.subList(0, Math.min(MOST_NAMED, lines.size())))
                + (more ? " and more." : ".");
    }

    /** Writes what was heard lately to a WAV file. */
    public void save() {
        LiveSound from = sound;
        if (from == null || from.written() == 0) {
            console.say("Nothing has been heard yet: choose a part, then H.");
            return;
        }
        String name =
                (console.unit().get()
                                + "-"
                                + from.part()
                                + "-live-"
                                + CLOCK.format(LocalTime.now(ZoneId.systemDefault())))
                        .replaceAll("[^\\p{L}\\p{N}._-]", "_");
        Path file = console.options().dataDir().resolve("sounds").resolve(name + ".wav");
        console.errands().send(() -> write(from, file), console::say, console::say);
    }

    private static String write(LiveSound from, Path file) throws IOException {
        PartAudio audio = from.latest();
        if (!(audio.rmsMps2() > 0)) {
            return "Nothing of " + PartWords.the(from.part()) + " has been heard yet.";
        }
        Files.createDirectories(file.getParent());
        List<PartAudio> one = List.of(audio);
        ListeningFile.write(file, one, Loudness.gains(one, Loudness.Keep.LOUDNESS));
        return String.format(
                Locale.ROOT,
                "The latest %.0f s of %s are %s.",
                audio.accelMps2().length / audio.sampleRateHz(),
                PartWords.the(from.part()),
                file);
    }
}
