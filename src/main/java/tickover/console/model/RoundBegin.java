package tickover.console.model;

import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import tickover.drive.Vehicle;
import tickover.session.LivePipeline;
import tickover.session.Round;

/**
 * A round that has begun.
 *
 * @param source where its vibration comes from
 * @param round its recording, or one that runs again
 * @param live its live picture
 */
record RoundBegin(RoundSource source, Round round, LivePipeline live) {
    /** Lets the chosen recording run again. */
    static RoundBegin replayed(ConsoleOptions options, Vehicle vehicle) {
        LivePipeline live = new LivePipeline();
        return new RoundBegin(
                RoundSources.recorded(),
                Round.replay(Path.of(options.replayed()), vehicle, options.pace(), live),
                live);
    }

    /** Finds the probe and begins to record. Takes some seconds. */
    static RoundBegin recorded(RoundSource from, Round.Spec spec) {
        try {
            LivePipeline live = new LivePipeline();
            Round begun =
                    Round.begin(spec, from.lines(), Clock.system(ZoneId.systemDefault()), live);
            return new RoundBegin(from, begun, live);
        } catch (RuntimeException e) {
            from.close();
            throw e;
        }
    }
}
