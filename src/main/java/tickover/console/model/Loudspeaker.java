package tickover.console.model;

import java.util.function.Consumer;
import tickover.session.SoundFollower;

/** Plays sounds. One at a time: a new one ends the one before. */
public interface Loudspeaker {
    /**
     * Plays; returns at once.
     *
     * @param samples 1 at full scale; nobody may write to them until it has ended
     * @param sampleRateHz samples per second, Hz
     * @param ended hears that it has ended or was stopped, on the screen's thread
     * @param failed hears why nothing can be heard, as one sentence, on the screen's thread; the
     *     sound has ended then
     */
    void play(double[] samples, double sampleRateHz, Runnable ended, Consumer<String> failed);

    /**
     * Plays what comes until another sound or {@link #stop}; returns at once.
     *
     * @param sound gives it, asked by another thread
     * @param failed hears why nothing can be heard, as one sentence, on the screen's thread
     */
    void follow(SoundFollower sound, Consumer<String> failed);

    /** Falls silent. */
    void stop();
}
