package tickover.console.model;

import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import tickover.session.BenchSitting;
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
    static BenchBegin at(ConsoleOptions options, Path file, double captureS) {
        if (options.replays()) {
            LivePipeline live = new LivePipeline();
            return new BenchBegin(
                    RoundSources.recordedBench(),
                    BenchSitting.replay(Path.of(options.replayed()), options.pace(), live),
                    live);
        }
        BenchSource from =
                options.simulated()
                        ? RoundSources.simulatedBench()
                        : RoundSources.benchPorts(options);
        try {
            LivePipeline live = new LivePipeline();
            BenchSitting sitting =
                    BenchSitting.begin(
                            new BenchSitting.Spec(file, captureS, 1),
                            from.lines(),
                            Clock.system(ZoneId.systemDefault()),
                            live);
            return new BenchBegin(from, sitting, live);
        } catch (RuntimeException e) {
            from.close();
            throw e;
        }
    }
}
