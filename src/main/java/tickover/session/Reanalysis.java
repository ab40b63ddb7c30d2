package tickover.session;

import java.io.UncheckedIOException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.FutureTask;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.function.Function;
import tickover.diagnose.ResultDifference;
import tickover.diagnose.VisitResult;
import tickover.store.KeptVisit;
import tickover.store.Log;
import tickover.store.LogPlace;
import tickover.store.StoreException;
import tickover.store.Visit;
import tickover.store.VisitFolderException;

/**
 * Runs old recordings through today's code. Each result is saved beside the earlier ones as soon as
 * it is there, so whatever ends the work early loses only the visits under way, and the same work
 * begun again goes on behind what this version has said already.
 *
 * <p>Captures of a visit are measured side by side; a second visit is under way meanwhile, so that
 * no processor waits for a visit's last capture. One thread calls.
 */
public final class Reanalysis {
    private static final int MOST_SIDE_BY_SIDE = 2;

    private final Log log;
    private final Function<Visit, VisitResult> analysis;
    private final Listener listener;
    private final int total;
    private final BlockingQueue<Finished> finished = new LinkedBlockingQueue<>();
    private int underWay;

    /** A visit and what came of it. */
    private record Finished(KeptVisit kept, FutureTask<VisitResult> outcome) {}

    private int done;

    private Reanalysis(
            Log log, Function<Visit, VisitResult> analysis, Listener listener, int total) {
        this.log = log;
        this.analysis = analysis;
        this.listener = listener;
        this.total = total;
    }

    /** What became of a visit. */
    public enum Outcome {
        /** It was analysed now. */
        ANALYSED,
        /** This version had analysed it before. */
        DONE_BEFORE,
        /** Its recordings were removed by rule. */
        REMOVED,
        /** Its recordings or its drive cannot be used. */
        FAILED
    }

    /**
     * One visit.
     *
     * @param visit which
     * @param outcome what became of it
     * @param difference how this version's result differs from the last one of another version; no
     *     element if there is none of another version, or none of this
     * @param why what went wrong or was removed, as a sentence without its full stop; else empty
     */
    public record Line(
            KeptVisit visit, Outcome outcome, List<ResultDifference> difference, String why) {
        public Line {
            Objects.requireNonNull(visit, "visit");
            Objects.requireNonNull(outcome, "outcome");
            difference = List.copyOf(difference);
            Objects.requireNonNull(why, "why");
        }
    }

    /** Hears of every visit. Called from the thread that asked for the work. */
    @FunctionalInterface
    public interface Listener {
        /**
         * Takes note.
         *
         * @param line the visit
         * @param done visits that are dealt with, this one included
         * @param total all visits
         */
        void dealtWith(Line line, int done, int total);
    }

    /**
     * Analyses visits anew.
     *
     * @param place where the log lives
     * @param visits which
     * @param listener hears of each of them, in the order in which they are done
     * @throws StoreException if the log fails
     */
    public static void run(LogPlace place, List<KeptVisit> visits, Listener listener) {
        run(place, visits, visit -> VisitAnalysis.analyse(visit, (done, total) -> {}), listener);
    }

    static void run(
            LogPlace place,
            List<KeptVisit> visits,
            Function<Visit, VisitResult> analysis,
            Listener listener) {
        Objects.requireNonNull(listener, "listener");
        int workers = Math.min(MOST_SIDE_BY_SIDE, Runtime.getRuntime().availableProcessors());
        ExecutorService pool = Executors.newFixedThreadPool(workers);
        try (Log log = Log.open(place)) {
            new Reanalysis(log, analysis, listener, visits.size()).run(visits, pool, workers);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException("the analysis was interrupted", e);
        } finally {
            VisitAnalysis.stop(pool);
        }
    }

    private void run(List<KeptVisit> visits, ExecutorService pool, int workers)
            throws InterruptedException {
        Deque<KeptVisit> waiting = new ArrayDeque<>(visits);
        while (!waiting.isEmpty() || underWay > 0) {
            while (underWay < workers && !waiting.isEmpty()) {
                begin(waiting.remove(), pool);
            }
            if (underWay > 0) {
                Finished next = finished.take();
                underWay--;
                finish(next.kept(), next.outcome());
            }
        }
    }

    private void begin(KeptVisit kept, ExecutorService pool) {
        List<VisitResult> known = log.results(kept.id());
        if (known.stream().anyMatch(Reanalysis::isOurs)) {
            tell(kept, Outcome.DONE_BEFORE, difference(known), "");
            return;
        }
        Optional<String> removed = log.removedByRule(kept.id());
        if (removed.isPresent()) {
            tell(kept, Outcome.REMOVED, List.of(), removed.get());
            return;
        }
        try {
            Visit visit =
                    log.visit(kept.id())
                            .orElseThrow(
                                    () ->
                                            new IllegalStateException(
                                                    "visit " + kept.id() + " is gone"));
            FutureTask<VisitResult> task = new FutureTask<>(() -> analysis.apply(visit));
            pool.execute(
                    () -> {
                        task.run();
                        finished.add(new Finished(kept, task));
                    });
            underWay++;
        } catch (StoreException e) {
            if (e.reason() != StoreException.Reason.DAMAGED) {
                throw e;
            }
            tell(kept, Outcome.FAILED, List.of(), e.getMessage());
        }
    }

    private void finish(KeptVisit kept, FutureTask<VisitResult> outcome)
            throws InterruptedException {
        VisitResult result;
        try {
            result = outcome.get();
        } catch (ExecutionException e) {
            tell(kept, Outcome.FAILED, List.of(), why(e.getCause()));
            return;
        }
        // Another process may have analysed it meanwhile; its result is as good as this one.
        boolean news = log.results(kept.id()).stream().noneMatch(Reanalysis::isOurs);
        if (news) {
            log.saveResult(kept.id(), result);
        }
        tell(
                kept,
                news ? Outcome.ANALYSED : Outcome.DONE_BEFORE,
                difference(log.results(kept.id())),
                "");
    }

    /** What is the visit's fault; anything else is the program's. */
    private static String why(Throwable cause) {
        if (cause instanceof VisitFolderException
                || cause instanceof StoreException
                || cause instanceof IllegalArgumentException
                || cause instanceof UncheckedIOException) {
            return String.valueOf(cause.getMessage());
        }
        if (cause instanceof RuntimeException e) {
            throw e;
        }
        if (cause instanceof Error e) {
            throw e;
        }
        throw new IllegalStateException("an analysis failed", cause);
    }

    private static boolean isOurs(VisitResult result) {
        return result.codeVersion().equals(CodeVersion.text());
    }

    /** Of results, the latest first: this version's last against the last of another version. */
    private static List<ResultDifference> difference(List<VisitResult> results) {
        Optional<VisitResult> ours = results.stream().filter(Reanalysis::isOurs).findFirst();
        Optional<VisitResult> other = results.stream().filter(r -> !isOurs(r)).findFirst();
        return ours.isPresent() && other.isPresent()
                ? List.of(ResultDifference.of(other.get(), ours.get()))
                : List.of();
    }

    private void tell(
            KeptVisit visit, Outcome outcome, List<ResultDifference> difference, String why) {
        done++;
        listener.dealtWith(new Line(visit, outcome, difference, why), done, total);
    }
}
