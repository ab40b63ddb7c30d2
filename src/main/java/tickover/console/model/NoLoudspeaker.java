package tickover.console.model;

import java.util.function.Consumer;
import tickover.session.SoundFollower;

/** Stands in before a loudspeaker is given. */
final class NoLoudspeaker implements Loudspeaker {
    private static final String WORDS = "There is no loudspeaker.";

    @Override
    public void play(
            double[] samples, double sampleRateHz, Runnable ended, Consumer<String> failed) {
        failed.accept(WORDS);
    }

    @Override
    public void follow(SoundFollower sound, Consumer<String> failed) {
        failed.accept(WORDS);
    }

    @Override
    public void stop() {}
}
