import './looks/tokens.css';
import './looks/elements.css';
import { mount } from 'svelte';
import App from './App.svelte';
import { language } from './parts/language';
import { look } from './parts/look.svelte';
import { route } from './route.svelte';
import { joined } from './wire/joined.svelte';
import { live } from './wire/live.svelte';

const place = document.getElementById('app');
if (place === null) throw new Error('index.html has no element "app"');
language.apply();
look.apply();
route.start();
void joined.start(() => live.start());
mount(App, { target: place });
