package tickover.console.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.session.LiveFeed;
import tickover.session.LivePipeline;
import tickover.session.SoundFollower;
import tickover.sim.SimulatedVan;

/** A part through the loudspeaker while the probe is held, without a screen. */
class HearingTest {
    /** Where the water pump's vanes stand on the simulated van. */
    private static final double VANES_ORDERS = 8.421875;

    @TempDir Path temp;
    private ConsoleModel console;
    private LiveModel live;
    private final LivePipeline pipeline = new LivePipeline();
    private LiveFeed feed;
    private final Ear ear = new Ear();

    private static final class Ear implements Loudspeaker {
        private SoundFollower followed;
        private boolean deaf;
        private int stopped;

        @Override
        public void play(double[] x, double rateHz, Runnable ended, Consumer<String> failed) {
            throw new IllegalStateException("nothing finished is played here");
        }

        @Override
        public void follow(SoundFollower sound, Consumer<String> failed) {
            followed = sound;
            if (deaf) {
                failed.accept("no loudspeaker");
            }
        }

        @Override
        public void stop() {
            stopped++;
        }

        /** Rms of what comes until nothing is left, 1 at full scale. */
        double rms() {
            double[] out = new double[480];
            double squares = 0;
            int blocks = 0;
            for (followed.next(out); out[479] != 0; followed.next(out)) {
                for (double v : out) {
                    squares += v * v / out.length;
                }
                blocks++;
            }
            return blocks == 0 ? 0 : Math.sqrt(squares / blocks);
        }
    }

    @BeforeEach
    void listen() {
        console =
                new ConsoleModel(
                        new ConsoleOptions(temp.resolve("data"), true), new DirectErrands());
        live = console.live();
        live.hearing().speaker(ear);
        SimulatedVan van = new SimulatedVan(false);
        live.attach(pipeline, van.vehicle());
        feed = new LiveFeed(pipeline, van.vehicle(), VANES_ORDERS);
    }

    private void play(double lengthS) {
        for (double t = 0; t < lengthS - 0.05; t += 0.1) {
            feed.play(0.1, 1, true);
            live.pulse();
        }
    }

    @Test
    void withoutAPartItSaysWhatToDo() {
        live.hear();
        assertFalse(live.hearing().on().get());
        assertTrue(console.message().get().contains("Choose a part first"));
    }

    @Test
    void theChosenPartIsHeardAndSaidHowLate() {
        play(4);
        live.choose("water-pump");
        live.hear();
        play(3);
        assertTrue(live.hearing().on().get());
        String words = live.hearing().words().get();
        // 0.4 s of reports and buffers, and 7 turns at 900 rpm.
        assertTrue(words.startsWith("Heard 0.9 s late of the water pump: "), words);
        assertTrue(words.contains("vanes"), words);
        assertTrue(ear.rms() > 0.05, "its tone is heard");
    }

    @Test
    void whatOthersHaveTooIsLeftOutAndNamed() {
        play(4);
        live.choose("idler");
        live.hear();
        play(1);
        String words = live.hearing().words().get();
        assertTrue(words.contains("Left out, because others have them too: turn"), words);
    }

    @Test
    void itFollowsTheChoiceAndFallsSilentWithNone() {
        play(4);
        live.choose("water-pump");
        live.hear();
        SoundFollower first = ear.followed;
        live.choose("idler");
        assertTrue(ear.followed != first);
        live.choose("idler");
        assertFalse(live.hearing().on().get());
        assertEquals(1, ear.stopped);
        assertEquals("", live.hearing().words().get());
    }

    @Test
    void withoutALoudspeakerItIsSaidOnceAndCanBeSaved() throws Exception {
        play(4);
        ear.deaf = true;
        live.choose("water-pump");
        live.hear();
        assertEquals("no loudspeaker", console.message().get());
        play(3);
        assertTrue(live.hearing().words().get().startsWith("No loudspeaker: W saves"));
        live.hearing().save();
        assertTrue(console.message().get().contains(".wav"), console.message().get());
        try (Stream<Path> files = Files.list(temp.resolve("data").resolve("sounds"))) {
            List<Path> all = files.toList();
            assertEquals(1, all.size());
            // Some 3 s of 48000 values of two bytes.
            assertEquals(3 * 2 * 48_000, (double) Files.size(all.get(0)), 0.4 * 2 * 48_000);
        }
    }

    @Test
    void nothingIsSavedBeforeAnythingWasHeard() {
        live.hearing().save();
        assertTrue(console.message().get().startsWith("Nothing has been heard yet"));
    }

    @Test
    void theEndOfTheRoundIsSilence() {
        play(4);
        live.choose("water-pump");
        live.hear();
        live.detach();
        assertFalse(live.hearing().on().get());
        live.hear();
        assertTrue(console.message().get().startsWith("Nothing is listened to"));
    }
}
