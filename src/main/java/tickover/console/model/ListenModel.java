package tickover.console.model;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import tickover.drive.PartWords;
import tickover.session.ListeningFile;
import tickover.store.Visit;
import tickover.store.VisitCapture;

/** One part's sound alone, from any capture, and beside it that of an earlier visit. */
public final class ListenModel {
    /** What is to be heard. */
    public enum What {
        /** The earlier one. */
        BEFORE,
        /** The later one, or the only one. */
        AFTER,
        /** Both, with a pause. */
        BOTH
    }

    private final ConsoleModel console;
    private final ReadOnlyObjectWrapper<ListenState> state =
            new ReadOnlyObjectWrapper<>(ListenState.EMPTY);
    private final ReadOnlyBooleanWrapper busy = new ReadOnlyBooleanWrapper(false);
    private final ListenChoice choice;
    private Loudspeaker speaker = new NoLoudspeaker();
    private ListenWork.Made made;
    private String playing = "";

    ListenModel(ConsoleModel console) {
        this.console = console;
        this.choice = new ListenChoice(console, this::forget);
    }

    /**
     * Returns what is to be listened to.
     *
     * @return always the same
     */
    public ListenChoice choice() {
        return choice;
    }

    /** Offers the chosen vehicle's visits. */
    void load() {
        choice.load();
    }

    /**
     * Says what plays the sounds.
     *
     * @param to the loudspeaker
     */
    public void speaker(Loudspeaker to) {
        speaker = to;
    }

    /**
     * Returns what is shown.
     *
     * @return observable, never null
     */
    public ReadOnlyObjectProperty<ListenState> state() {
        return state.getReadOnlyProperty();
    }

    /**
     * Returns whether a sound is being taken out.
     *
     * @return observable
     */
    public ReadOnlyBooleanProperty busy() {
        return busy.getReadOnlyProperty();
    }

    /** Something else was chosen. */
    private void forget() {
        made = null;
        speaker.stop();
        publish();
    }

    /** Takes the sounds out if that has not been done, and hands them on. */
    private void make(Consumer<ListenWork.Made> then) {
        Optional<VisitCapture> from = choice.chosen();
        if (from.isEmpty() || choice.part().get() == null) {
            console.say("There is no capture to listen to yet.");
            return;
        }
        if (made != null) {
            then.accept(made);
            return;
        }
        busy.set(true);
        console.say(
                "Taking the sound of "
                        + PartWords.the(choice.part().get())
                        + " out of the capture…");
        Visit now = choice.opened();
        ListenSource before = choice.earlier().get();
        boolean pair = choice.wantsBefore();
        ListenWork work =
                new ListenWork(choice.part().get(), choice.how().get(), choice.keep().get());
        console.errands()
                .send(
                        () ->
                                work.of(
                                        now,
                                        from.get(),
                                        pair ? List.of(choice.read(before)) : List.of()),
                        done -> {
                            busy.set(false);
                            made = done;
                            console.say("");
                            publish();
                            then.accept(done);
                        },
                        why -> {
                            busy.set(false);
                            console.say(why);
                        });
    }

    /**
     * Lets a sound be heard.
     *
     * @param what which
     */
    public void play(What what) {
        make(
                sounds -> {
                    if (what != What.AFTER && !sounds.hasBefore()) {
                        console.say(sounds.beforeWords());
                        return;
                    }
                    playing =
                            switch (what) {
                                case BEFORE -> "before";
                                case AFTER ->
                                        sounds.hasBefore()
                                                ? "after"
                                                : PartWords.the(choice.part().get());
                                case BOTH -> "before, then after";
                            };
                    publish();
                    String heard = playing;
                    speaker.play(
                            sounds.samples(what),
                            sounds.rateHz(what),
                            () -> ended(heard),
                            why -> {
                                ended(heard);
                                console.say(why);
                            });
                });
    }

    private void ended(String heard) {
        if (playing.equals(heard)) {
            playing = "";
            publish();
        }
    }

    /** Falls silent. */
    public void stop() {
        speaker.stop();
        playing = "";
        publish();
    }

    /** Writes what there is to a WAV file: both after each other if there are two. */
    public void save() {
        make(
                sounds -> {
                    String unit = choice.opened().vehicle().unit();
                    String name =
                            (unit
                                            + "-"
                                            + sounds.part()
                                            + "-"
                                            + choice.opened().date().toLocalDate())
                                    .replaceAll("[^\\p{L}\\p{N}._-]", "_");
                    Path file =
                            console.options().dataDir().resolve("sounds").resolve(name + ".wav");
                    console.errands()
                            .send(
                                    () -> {
                                        Files.createDirectories(file.getParent());
                                        ListeningFile.write(file, sounds.sounds(), sounds.gains());
                                        return file;
                                    },
                                    kept -> console.say("The sound is " + kept + "."),
                                    console::say);
                });
    }

    private void publish() {
        if (made == null) {
            boolean any = choice.chosen().isPresent();
            state.set(
                    new ListenState(any, playing, any && choice.wantsBefore(), "", "", List.of()));
            return;
        }
        state.set(
                new ListenState(
                        true,
                        playing,
                        made.hasBefore(),
                        made.afterWords(),
                        made.beforeWords(),
                        made.notes()));
    }
}
