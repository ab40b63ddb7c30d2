package tickover.console.model;

import java.nio.file.Path;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import tickover.session.OpenRound;
import tickover.store.Visit;

/** Rounds that were ended by a closed window or a killed program, and what becomes of them. */
public final class LeftRounds {
    private static final DateTimeFormatter WHEN =
            DateTimeFormatter.ofPattern("d MMM uuuu, HH:mm", Locale.ENGLISH);

    private final ConsoleModel console;
    private final ObservableList<OpenRound> all = FXCollections.observableArrayList();

    LeftRounds(ConsoleModel console) {
        this.console = console;
    }

    /** Looks for them anew. */
    void load() {
        Path folder = console.options().recordings();
        console.errands().send(() -> OpenRound.in(folder), all::setAll, console::say);
    }

    /**
     * Returns the rounds.
     *
     * @return observable, oldest first
     */
    public ObservableList<OpenRound> all() {
        return all;
    }

    /**
     * Says what there is.
     *
     * @return one sentence about the oldest; empty if there is none
     */
    public String words() {
        if (all.isEmpty()) {
            return "";
        }
        OpenRound oldest = all.get(0);
        String more = all.size() == 1 ? "" : " (and " + (all.size() - 1) + " more)";
        return "The round of "
                + WHEN.format(oldest.lastWritten())
                + " was broken off; its recording "
                + oldest.recording().getFileName()
                + " is not in the log yet"
                + more
                + ".";
    }

    /** Takes the oldest into the log and shows what it says. */
    public void takeIn() {
        if (all.isEmpty()) {
            return;
        }
        OpenRound oldest = all.remove(0);
        console.say("Taking " + oldest.recording().getFileName() + " into the log…");
        console.errands()
                .send(
                        () -> oldest.takeInto(console.options().log()),
                        this::show,
                        why -> {
                            console.say(why);
                            load();
                        });
    }

    private void show(Visit visit) {
        console.vehicles().load();
        console.choose(visit.vehicle());
        console.go(Screen.FINDINGS);
        console.say("The round of " + visit.vehicle().unit() + " is in the log.");
    }

    /** Leaves the oldest out of the log; its recording stays on the disk. */
    public void leaveOut() {
        if (all.isEmpty()) {
            return;
        }
        OpenRound oldest = all.remove(0);
        console.errands()
                .send(
                        () -> {
                            oldest.leaveOut();
                            return oldest.recording();
                        },
                        file ->
                                console.say(
                                        "It stays out of the log. The recording is " + file + "."),
                        console::say);
    }
}
