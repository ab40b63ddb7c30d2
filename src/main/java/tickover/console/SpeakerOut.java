package tickover.console;

import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Consumer;
import javafx.application.Platform;
import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioSystem;
import javax.sound.sampled.LineUnavailableException;
import javax.sound.sampled.SourceDataLine;
import tickover.console.model.Loudspeaker;
import tickover.session.SpeakerSound;

/** The computer's loudspeaker. Each sound has a thread of its own; the screen's never waits. */
final class SpeakerOut implements Loudspeaker {
    /** A rate that every loudspeaker takes, Hz. */
    private static final float USUAL_RATE_HZ = 48_000;

    private static final int PIECE_BYTES = 4096;
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
            "This computer has no loudspeaker that can be used now; Save as WAV (W) writes the"
                    + " sound to a file for another one.";

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

    private static byte[] bytes(double[] samples) {
        byte[] bytes = new byte[2 * samples.length];
        for (int i = 0; i < samples.length; i++) {
            double within = Math.max(-1, Math.min(1, samples[i]));
            short value = (short) Math.rint(FULL_SCALE * within);
            bytes[2 * i] = (byte) value;
            bytes[2 * i + 1] = (byte) (value >> 8);
        }
        return bytes;
    }

    @Override
    public void stop() {
        wanted.incrementAndGet();
    }
}
