package dev.splicebook.client;

import java.io.IOException;
import java.io.InputStream;
import java.io.InterruptedIOException;
import java.net.http.HttpResponse.BodySubscriber;
import java.net.http.HttpTimeoutException;
import java.nio.ByteBuffer;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.Flow;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/**
 * An answer read while it comes: one piece at a time is fetched, and waited for no longer than a limit. The JDK's own
 * waits for ever where the other side falls silent.
 */
final class Pieces extends InputStream implements BodySubscriber<Pieces> {

    /** What comes in: buffers, the end, or a failure. */
    private record Piece(
            List<ByteBuffer> buffers,
            boolean isEnd,
            @Nullable Throwable failure) {}

    private final Duration patience;
    private final BlockingQueue<Piece> pieces = new LinkedBlockingQueue<>();
    private final CompletableFuture<Flow.Subscription> subscription = new CompletableFuture<>();
    private final Queue<ByteBuffer> buffers = new ArrayDeque<>();
    private boolean isAtEnd;
    private boolean isBroken;

    Pieces(Duration patience) {
        this.patience = patience;
    }

    @Override
    public CompletionStage<Pieces> getBody() {
        return CompletableFuture.completedStage(this);
    }

    @Override
    public void onSubscribe(Flow.Subscription subscription) {
        this.subscription.complete(subscription);
        subscription.request(1);
    }

    @Override
    public void onNext(List<ByteBuffer> buffers) {
        pieces.add(new Piece(buffers, false, null));
    }

    @Override
    public void onError(Throwable failure) {
        pieces.add(new Piece(List.of(), true, failure));
    }

    @Override
    public void onComplete() {
        pieces.add(new Piece(List.of(), true, null));
    }

    @Override
    public int read() throws IOException {
        byte[] one = new byte[1];
        return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
    }

    @Override
    public int read(byte[] bytes, int offset, int length) throws IOException {
        if (length == 0) {
            return 0;
        }
        while (!isAtEnd) {
            ByteBuffer buffer = buffers.peek();
            if (buffer == null) {
                take();
            } else if (buffer.hasRemaining()) {
                int piece = Math.min(length, buffer.remaining());
                buffer.get(bytes, offset, piece);
                return piece;
            } else {
                buffers.remove();
            }
        }
        return -1;
    }

    private void take() throws IOException {
        Piece piece = await();
        if (piece.failure() != null) {
            isAtEnd = true;
            isBroken = true;
            throw new IOException(told(piece.failure()), piece.failure());
        }
        if (piece.isEnd()) {
            isAtEnd = true;
            return;
        }
        buffers.addAll(piece.buffers());
        subscription.join().request(1);
    }

    private Piece await() throws IOException {
        try {
            Piece piece = pieces.poll(patience.toNanos(), TimeUnit.NANOSECONDS);
            if (piece == null) {
                close();
                isBroken = true;
                throw new HttpTimeoutException("the rest of the answer did not come in time");
            }
            return piece;
        } catch (InterruptedException e) {
            close();
            isBroken = true;
            Thread.currentThread().interrupt();
            InterruptedIOException interrupted = new InterruptedIOException("interrupted");
            interrupted.initCause(e);
            throw interrupted;
        }
    }

    /** Whether reading ended with an exception. */
    boolean isBroken() {
        return isBroken;
    }

    /** Ends the answer, and with it the connection if there is more to come. */
    @Override
    public void close() {
        isAtEnd = true;
        buffers.clear();
        Flow.Subscription subscribed = subscription.getNow(null);
        if (subscribed != null) {
            subscribed.cancel();
        }
    }

    private static String told(Throwable failure) {
        String message = failure.getMessage();
        return message == null ? failure.getClass().getSimpleName() : message;
    }
}
