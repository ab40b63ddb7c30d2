package tickover.console.model;

import java.util.concurrent.Callable;
import java.util.function.Consumer;

/** Does errands at once, in the same thread. */
public final class DirectErrands implements Errands {
    @Override
    public <T> void send(Callable<T> work, Consumer<T> done, Consumer<String> failed) {
        T outcome;
        try {
            outcome = work.call();
        } catch (Exception e) {
            failed.accept(String.valueOf(e.getMessage()));
            return;
        }
        done.accept(outcome);
    }
}
