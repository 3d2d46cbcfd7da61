"""The workers of a dask scheduler, as an executor; loaded only where they are asked for."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from typing import Any

from builder.cli.base import BuilderStop
from builder.cli.many.trips import Hire
from builder.cli.places import Place
from builder.problems import printable

_CONNECT_S, _WORKERS_S = 10, 15  # together well under half a minute


def hiring_of(address: str) -> Callable[[Place], AbstractContextManager[Hire]]:
    """Give what opens the way to the workers of a scheduler."""

    @contextmanager
    def hiring(place: Place) -> Iterator[Hire]:
        from builder.cli.many.elsewhere import hire_of

        distributed = _library()
        shown = printable(address)
        # What it logs of lost connections is said in plain words here.
        logging.getLogger("distributed").setLevel(logging.CRITICAL)
        try:
            client = distributed.Client(
                address, timeout=_CONNECT_S, set_as_default=False, name="tripkit"
            )
        except (OSError, TimeoutError, ValueError, ImportError) as error:
            raise BuilderStop(
                f"no scheduler answers at {shown}",
                [
                    "start one with `dask scheduler`, and workers with `dask worker`",
                    "write its address like tcp://10.0.0.5:8786",
                ],
            ) from error
        with client:
            try:
                client.wait_for_workers(1, timeout=_WORKERS_S)
            except TimeoutError as error:
                raise BuilderStop(
                    f"the scheduler at {shown} has no workers",
                    [f"start some with `dask worker {shown}`"],
                ) from error
            lost = (
                distributed.KilledWorker,
                distributed.client.FutureCancelledError,
                distributed.comm.CommClosedError,
            )
            with client.get_executor(pure=False) as executor:
                yield hire_of(executor, place, lost)

    return hiring


def _library() -> Any:
    try:
        import distributed
    except ImportError as error:
        raise BuilderStop(
            "--cluster needs the library dask.distributed",
            ["install it with `pip install 'trip-kit-builder[cluster]'`"],
        ) from error
    return distributed
