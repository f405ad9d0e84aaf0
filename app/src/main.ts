import './looks/tokens.css';
import './looks/elements.css';
import './looks/graphs.css';
import { mount } from 'svelte';
import App from './App.svelte';
import { rounds } from './kept/rounds.svelte';
import { outbox } from './outbox/outbox.svelte';
import { language } from './parts/language';
import { look } from './parts/look.svelte';
import { route } from './route.svelte';
import { joined } from './wire/joined.svelte';
import { live } from './wire/live.svelte';
import { newer } from './worker/newer.svelte';

const place = document.getElementById('app');
if (place === null) throw new Error('index.html has no element "app"');
await language.apply();
look.apply();
route.start();
outbox.start();
live.whenOpened(() => void newer.look());
void joined.start(() => {
  void rounds.start();
  live.start();
});
newer.start();
mount(App, { target: place });
