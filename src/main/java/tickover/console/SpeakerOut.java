package tickover.console;

import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Consumer;
import javafx.application.Platform;
import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioSystem;
import javax.sound.sampled.LineUnavailableException;
import javax.sound.sampled.SourceDataLine;
import tickover.console.model.Hearing;
import tickover.console.model.Loudspeaker;
import tickover.diagnose.LivePartSound;
import tickover.session.SoundFollower;
import tickover.session.SpeakerSound;

/** The computer's loudspeaker. Each sound has a thread of its own; the screen's never waits. */
final class SpeakerOut implements Loudspeaker {
    /** A rate that every loudspeaker takes, Hz. */
    private static final float USUAL_RATE_HZ = 48_000;

    private static final int PIECE_BYTES = 4096;
    private static final int PIECES_PER_S = 100;
    private static final double LINE_S = Hearing.LINE_S;
    private static final double FULL_SCALE = Short.MAX_VALUE;

    /** Number of the sound that is wanted; whoever plays another one falls silent. */
    private final AtomicInteger wanted = new AtomicInteger();

    @Override
    public void play(
            double[] samples, double sampleRateHz, Runnable ended, Consumer<String> failed) {
        int own = wanted.incrementAndGet();
        Thread player =
                new Thread(
                        () -> {
                            try {
                                sound(samples, sampleRateHz, own);
                            } catch (LineUnavailableException
                                    | IllegalArgumentException
                                    | SecurityException e) {
                                Platform.runLater(() -> failed.accept(NO_LOUDSPEAKER));
                                return;
                            }
                            Platform.runLater(ended);
                        },
                        "tickover-loudspeaker");
        player.setDaemon(true);
        player.start();
    }

    private static final String NO_LOUDSPEAKER =
            "This computer has no loudspeaker that can be used now; W writes the sound to a file"
                    + " for another one.";

    private void sound(double[] samples, double sampleRateHz, int own)
            throws LineUnavailableException {
        AudioFormat format = new AudioFormat(USUAL_RATE_HZ, 16, 1, true, false);
        try (SourceDataLine line = AudioSystem.getSourceDataLine(format)) {
            line.open(format);
            line.start();
            byte[] bytes = bytes(SpeakerSound.at(samples, sampleRateHz, USUAL_RATE_HZ));
            for (int at = 0; at < bytes.length && wanted.get() == own; at += PIECE_BYTES) {
                line.write(bytes, at, Math.min(PIECE_BYTES, bytes.length - at));
            }
            if (wanted.get() == own) {
                line.drain();
            } else {
                line.stop();
                line.flush();
            }
        }
    }

    @Override
    public void follow(SoundFollower sound, Consumer<String> failed) {
        int own = wanted.incrementAndGet();
        Thread player =
                new Thread(
                        () -> {
                            try {
                                sound(sound, own);
                            } catch (LineUnavailableException
                                    | IllegalArgumentException
                                    | SecurityException e) {
                                Platform.runLater(() -> failed.accept(NO_LOUDSPEAKER));
                            }
                        },
                        "tickover-loudspeaker");
        player.setDaemon(true);
        player.start();
    }

    private void sound(SoundFollower sound, int own) throws LineUnavailableException {
        AudioFormat format = new AudioFormat(LivePartSound.RATE_HZ, 16, 1, true, false);
        double[] samples = new double[LivePartSound.RATE_HZ / PIECES_PER_S];
        byte[] bytes = new byte[2 * samples.length];
        try (SourceDataLine line = AudioSystem.getSourceDataLine(format)) {
            // What waits in the line is heard late.
            line.open(format, (int) (2 * LINE_S * LivePartSound.RATE_HZ));
            line.start();
            while (wanted.get() == own) {
                sound.next(samples);
                write(samples, bytes);
                line.write(bytes, 0, bytes.length);
            }
            line.stop();
            line.flush();
        }
    }

    private static byte[] bytes(double[] samples) {
        byte[] bytes = new byte[2 * samples.length];
        write(samples, bytes);
        return bytes;
    }

    private static void write(double[] samples, byte[] bytes) {
        for (int i = 0; i < samples.length; i++) {
            double within = Math.max(-1, Math.min(1, samples[i]));
            short value = (short) Math.rint(FULL_SCALE * within);
            bytes[2 * i] = (byte) value;
            bytes[2 * i + 1] = (byte) (value >> 8);
        }
    }

    @Override
    public void stop() {
        wanted.incrementAndGet();
    }
}
