package tickover.console.model;

import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import tickover.session.BenchSitting;
import tickover.session.LineChoice;
import tickover.session.LivePipeline;

/**
 * A sitting at the bench that has begun.
 *
 * @param source where its vibration comes from
 * @param sitting its recording
 * @param live its live picture
 */
record BenchBegin(BenchSource source, BenchSitting sitting, LivePipeline live) {
    /** Finds the probe and begins to record. Takes some seconds. */
    static BenchBegin at(ConsoleOptions options, LineChoice.Wish wish, BenchSitting.Spec spec) {
        if (options.replays()) {
            LivePipeline live = new LivePipeline();
            return new BenchBegin(
                    RoundSources.recordedBench(),
                    BenchSitting.replay(Path.of(options.replayed()), options.pace(), live),
                    live);
        }
        BenchSource from =
                options.simulated() ? RoundSources.simulatedBench() : RoundSources.benchPorts(wish);
        try {
            LivePipeline live = new LivePipeline();
            BenchSitting sitting =
                    BenchSitting.begin(
                            spec, from.lines(), Clock.system(ZoneId.systemDefault()), live);
            return new BenchBegin(from, sitting, live);
        } catch (RuntimeException e) {
            from.close();
            throw e;
        }
    }
}
