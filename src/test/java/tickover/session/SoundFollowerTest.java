package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tickover.diagnose.LivePartSound;
import tickover.dsp.AllocationMeter;

class SoundFollowerTest {
    private static final int BLOCK = LivePartSound.RATE_HZ / 100;

    private final LiveSound sound = new LiveSound("idler");
    private final SoundFollower follower = new SoundFollower(sound);
    private final double[] out = new double[BLOCK];
    private long number;

    /** A tone of 1 kHz, rms. */
    private void comes(double lengthS, double rms) {
        for (int i = 0; i < lengthS * LivePartSound.RATE_HZ; i++) {
            double angle = 2 * Math.PI * 1000 * number++ / LivePartSound.RATE_HZ;
            sound.add(Math.sqrt(2) * rms * Math.sin(angle));
        }
    }

    private double rmsOfNext() {
        follower.next(out);
        double squares = 0;
        for (double v : out) {
            squares += v * v;
        }
        return Math.sqrt(squares / out.length);
    }

    @Test
    void burstsOfATenthOfASecondFlowWithoutAGap() {
        comes(0.1, 1);
        assertEquals(0, rmsOfNext(), "too little to begin with");
        comes(0.15, 1);
        for (int tenth = 0; tenth < 50; tenth++) {
            for (int block = 0; block < 10; block++) {
                // A whole number of periods, and one loudness from the first block on.
                assertEquals(0.1, rmsOfNext(), 0.002, "tenth " + tenth);
            }
            comes(0.1, 1);
        }
    }

    @Test
    void whereNothingComesItIsSilentAndGoesOn() {
        comes(0.25, 1);
        for (int block = 0; block < 30; block++) {
            follower.next(out);
        }
        assertEquals(0, rmsOfNext());
        comes(0.25, 1);
        assertTrue(rmsOfNext() > 0.05);
    }

    @Test
    void aLoudspeakerThatWasHeldUpLeavesTheOldestOut() {
        comes(0.25, 1);
        follower.next(out);
        comes(3, 1);
        follower.next(out);
        int left = 0;
        while (rmsOfNext() > 0) {
            left++;
        }
        // What waits, less the block that was taken, and a piece of one.
        assertEquals(SoundFollower.WAITING_S * 100, left, 2);
    }

    @Test
    void aBlowNeverClipsAndWhatIsQuietComesUpSlowly() {
        comes(0.25, 0.01);
        follower.next(out);
        comes(0.05, 10);
        double highest = 0;
        for (int block = 0; block < 29; block++) {
            follower.next(out);
            for (double v : out) {
                highest = Math.max(highest, Math.abs(v));
            }
        }
        assertTrue(highest <= 0.9 && highest > 0.1, "" + highest);
        comes(0.3, 0.01);
        double before = rmsOfNext();
        for (int i = 0; i < 100; i++) {
            comes(0.01, 0.01);
            follower.next(out);
        }
        comes(0.01, 0.01);
        double after = rmsOfNext();
        // 3 dB in the second between them.
        assertEquals(Math.pow(10, 3 / 20.0), after / before, 0.05);
    }

    @Test
    void whatWasHeardLatelyIsKept() {
        comes(25, 0.5);
        PartAudio kept = sound.latest();
        assertEquals(LiveSound.KEPT_S * LivePartSound.RATE_HZ, kept.accelMps2().length);
        // Values are kept with seven digits.
        assertEquals(0.5, kept.rmsMps2(), 1e-6);
        assertEquals("idler", kept.part());
    }

    @Test
    void nothingIsAllocatedWhenWarm() {
        comes(1, 1);
        assertEquals(
                0,
                AllocationMeter.bytesOf(
                        () -> {
                            for (int i = 0; i < BLOCK; i++) {
                                sound.add(i);
                            }
                            follower.next(out);
                        }));
    }
}
